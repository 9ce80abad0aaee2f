import { describe, expect, it } from "vitest";
import { crownOf } from "../../../src/core/crown/crown.ts";
import { rayRadiiM } from "../../../src/core/crown/dose.ts";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { computeOptions } from "../../../src/core/prescription/options.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { conflict, planOptions, setting, standard, traits, tree } from "./scene.ts";

const draftOf = (of: Tree, conflicts: readonly Conflict[]) =>
  prescribe([of], conflicts, [setting()], standard, planOptions())[0]!;

describe("less than the clear-to", () => {
  // A column: its slices are the same at every height. It does not grow wider.
  const conifer = tree({
    form: "conifer",
    habit: "column",
    baseM: 0.5,
    radiusM: 3.2,
    traits: traits({ isConifer: true, isEvergreen: true, radiusGrowthMPerYear: 0 }),
  });
  const wall = conflict("building-side", 0.3, { distanceM: 3.5, eavesM: 30 });

  it("is freed at a wall where nothing that reaches it is allowed, for a year at least, and says how long it lasts", () => {
    // The clear-to would be cut 3.5 - 1.83 = 1.67 m from the trunk, 48 % of a 3.2 m limb: too deep for a conifer. A third of it is 2.13 m from the
    // trunk, 1.37 m from the wall: (1.37 - 0.9144) / 0.3 = 1.5 years.
    const draft = draftOf(conifer, [wall]);
    expect(draft.refer).toBeNull();
    const chosen = draft.options[draft.chosen!]!;
    expect(chosen.lastsYears).toBeCloseTo(1.5, 9);
    expect(draft.tasks[0]!.targetM).toBeCloseTo(0.9144 + 0.3 * 1.5, 9);
    expect(chosen.targets!.map(({ lastsYears }) => lastsYears)).toEqual([1, 1.5, 5]);
    expect(draft.why).toContain("should last one year");
    expect(draft.cautions.join(" ")).toContain("Cleared less than the usual 1.8 m from the wall");
  });

  it("is nothing to be content with where the clear-to is allowed", () => {
    const far = conflict("building-side", 0.3, { distanceM: 4.5, eavesM: 30 });
    const draft = draftOf(tree({ habit: "column", baseM: 0.5, radiusM: 4.2 }), [far]);
    expect(draft.tasks[0]!.targetM).toBeGreaterThanOrEqual(1.8288 - 1e-9);
    expect(draft.cautions.join(" ")).not.toContain("less than the usual");
  });

  it("is referred where not even a year's cure is allowed", () => {
    // For a year the cut is 2 - 1.2144 = 0.79 m from the trunk: the limbs of 2 m to the wall would lose 61 %.
    const near = conflict("building-side", -1, { distanceM: 2, eavesM: 30 });
    const draft = draftOf(conifer, [near]);
    expect(draft.refer?.code).toBe("dose-beyond-limits");
    expect(draft.stages).toEqual([]);
  });

  it("is freed above a roof too", () => {
    // A column from 6.7 to 12 m, mature, half of it over a roof at 6 m. To 10 ft above the roof, 9.05 m, 44 % of that half would come off; its
    // 6 ft and a year's 0.32 m, 8.15 m, are 27 %.
    const high = tree({ habit: "column", baseM: 6.7, traits: traits({ matureHeightM: 12, radiusGrowthMPerYear: 0 }) });
    const crown = crownOf(high);
    const subject = { tree: high, crown, radiiM: rayRadiiM(crown) };
    const [whole] = computeOptions(subject, [roofAt(6)], 0.15, standard);
    const [short] = computeOptions(subject, [roofAt(6)], 0.15, standard, "short");
    expect(whole!.ruledOut?.limit).toBe("dose");
    expect(short!.ruledOut).toBeNull();
    expect(short!.option.lastsYears).toBeGreaterThanOrEqual(1);
    expect(short!.cuts[0]!.belowM).toBeCloseTo(6 + 1.8288 + 0.32 * short!.option.lastsYears, 9);
  });
});

function roofAt(roofM: number): Conflict {
  const rule = standard.rules.find(({ kind }) => kind === "building-roof")!;
  const over = conflict("walkway", 1.2, { distanceM: 0.2 });
  return {
    ...over,
    kind: "building-roof",
    conflictId: "t1/building-roof/x",
    ruleId: rule.id,
    minimumM: rule.minimumM,
    clearToM: rule.clearToM,
    encroachmentM: rule.minimumM - 1.2,
    datumM: roofM,
    admits: rule.admits,
    hazard: null,
    region: { ...over.region, lowM: roofM, highM: roofM + rule.clearToM },
  };
}

describe("a cure of less than a year", () => {
  // Fronds below the horizontal, 4.58 m, may come off a palm: to the clear-to of 4.572 m and no farther. With leaf and rain, 0.2 m, that lasts
  // (0.3048 - 0.2) / 0.12 = 0.87 years.
  const palm = tree({ form: "palm", heightM: 9, baseM: 0.16, radiusM: 2, traits: traits({ radiusGrowthMPerYear: 0 }) });
  const lane = (measuredM: number) => conflict("roadway", measuredM, { distanceM: 1.8, droopAllowanceM: 0.2 });

  it("is prescribed for a hazard where nothing longer is allowed", () => {
    // 13 ft 6 in, 4.11 m, is the height of vehicles.
    const draft = draftOf(palm, [lane(4)]);
    const chosen = draft.options[draft.chosen!]!;
    expect(chosen.lastsYears).toBeCloseTo(0.1048 / 0.12, 9);
    expect(draft.refer).toBeNull();
    expect(draft.stages).toHaveLength(1);
  });

  it("sends nobody where there is none, and says why", () => {
    const draft = draftOf(palm, [lane(4.2)]);
    expect(draft.chosen).toBeNull();
    expect(draft.stages).toEqual([]);
    expect(draft.refer?.reason).toContain("it would last less than a year");
    expect(draft.options.some(({ ruledOutBy }) => ruledOutBy?.includes("less than a year"))).toBe(true);
  });

  it("takes what may wait along with the hazard", () => {
    const walk = conflict("walkway", 2.2, { distanceM: 1.8, bearingDeg: 270, droopAllowanceM: 0.2 });
    const both = draftOf(palm, [lane(4), { ...walk, hazard: null }]);
    expect(both.stages.flatMap(({ conflictIds }) => conflictIds)).toEqual(["t1/roadway/x", "t1/walkway/x"]);
  });

  it("is reached in several visits for a hazard that one may not end", () => {
    // A column from 0.5 to 6 m: nothing a year's growth above the clear-to keeps enough live crown, the clear-to itself takes two seasons.
    const column = tree({
      habit: "column",
      heightM: 6,
      baseM: 0.5,
      radiusM: 3,
      traits: traits({ radiusGrowthMPerYear: 0, matureHeightM: 9 }),
    });
    const over = (measuredM: number) => conflict("roadway", measuredM, { distanceM: 0.6, droopAllowanceM: 0.2 });
    const draft = draftOf(column, [over(2.5)]);
    expect(draft.refer).toBeNull();
    expect(draft.stages).toHaveLength(2);
    expect(draft.options[draft.chosen!]!.lastsYears).toBeGreaterThan(0);
    expect(draft.options[draft.chosen!]!.lastsYears).toBeLessThan(1);
    expect(draftOf(column, [over(4.2)]).refer).not.toBeNull();
  });
});
