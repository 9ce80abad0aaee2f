import { describe, expect, it } from "vitest";
import type { Conflict, RemovalRegion } from "../../../src/core/model/conflict.ts";
import { RAY_COUNT } from "../../../src/core/model/conflict.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import type { PrescriptionDraft } from "../../../src/core/prescription/prescription-draft.ts";
import { conflict, planOptions, setting, standard, traits, tree } from "./scene.ts";

/** A view in the middle of which the tree stands: leaves between 2.5 and 9 ft have to go on every side. */
const all: RemovalRegion = {
  fromM: new Float64Array(RAY_COUNT),
  toM: new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY),
  lowM: 2.5 * 0.3048,
  highM: 9 * 0.3048,
};
const view = (over: Partial<Conflict> = {}): Conflict =>
  conflict("sight-triangle", 1.2, { distanceM: 0, region: all, ...over });
const draftOf = (subject: Tree, conflicts: Conflict[]): PrescriptionDraft =>
  prescribe([subject], conflicts, [setting()], standard, planOptions())[0]!;

describe("a tree that stands in a sight triangle", () => {
  // Raised to 9 ft = 2.743 m it needs 2.743 / 0.4 = 6.858 m of height.
  const sapling = tree({ heightM: 4, baseM: 1.6, radiusM: 1, dbhM: 0.12 });

  it("is raised when it is tall enough", () => {
    // 9 m: 3.1 m of 7.9 m is 16 percent of the height raised; 6.257 / 9 = 0.695 stays.
    const draft = draftOf(tree({ heightM: 9, baseM: 2, radiusM: 2, dbhM: 0.2 }), [view()]);
    expect([draft.refer, draft.remedy === "none"]).toEqual([null, false]);
    expect(draft.liveCrownRatioAfter).toBeGreaterThanOrEqual(0.6);
  });

  it("waits, unreferred, when it grows out of the view within two cycles, and says until when and who decides", () => {
    const draft = draftOf(sapling, [view()]);
    // (6.858 - 4) / 0.4 m a year = 7.1 years from July 2026.
    expect(draft.openUntilYear).toBe(2033);
    expect(draft.refer).toBeNull();
    expect(draft.stages).toEqual([]);
    expect(draft.why).toContain("tall enough about 2033");
    expect(draft.cautions.join(" ")).toContain("whether the intersection can wait is for the traffic engineer");
  });

  it("gets the interim lift of a young tree where there is something to lift", () => {
    // A third of 4 m is 1.33 m; its branches begin at 1 m.
    const draft = draftOf(tree({ heightM: 4, baseM: 1, radiusM: 1, dbhM: 0.12 }), [view()]);
    expect(draft.liftToM).toBeCloseTo(4 / 3, 9);
    expect(draft.openUntilYear).toBe(2033);
    expect(draft.refer).toBeNull();
    expect(draft.cautions.join(" ")).toContain("Open until about 2033");
  });

  it("is referred with what the owner can do where its species stays too low, or grows too slowly", () => {
    for (const over of [{ matureHeightM: 6 }, { heightGrowthMPerYear: 0.2 }]) {
      const { refer, openUntilYear } = draftOf({ ...sapling, traits: traits(over) }, [view()]);
      expect(refer?.code).toBe("stands-in-view");
      expect(refer?.reason).toContain("move the tree while it is small");
      expect(openUntilYear).toBeNull();
    }
  });

  it("is referred at once where what it hides is a hazard", () => {
    expect(draftOf(sapling, [view({ hazard: "sight-hidden" })]).refer?.code).toBe("stands-in-view");
  });

  it("is referred for what a shrub is: to be kept low, moved or replaced", () => {
    const shrub = tree({ form: "shrub", heightM: 2.5, baseM: 0, radiusM: 1.2, dbhM: null });
    const { refer } = draftOf(shrub, [view()]);
    expect(refer?.code).toBe("stands-in-view");
    expect(refer?.reason).toContain("replace it by plants that stay below 0.8 m");
  });
});

it("tells what a possible view rests on where the control is assumed", () => {
  const doubt =
    "How traffic is controlled here is not recorded; a stop sign is assumed (collector meets local-access).";
  const { refer } = draftOf(tree(), [view({ certainty: "possible", basis: "assumed", doubt })]);
  expect(refer?.code).toBe("inspect-first");
  expect(refer?.reason).toContain(doubt);
});
