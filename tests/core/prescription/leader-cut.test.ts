import { describe, expect, it } from "vitest";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { prescribe } from "../../../src/core/prescription/prescribe.ts";
import { conflict, planOptions, setting, standard, traits, tree } from "./scene.ts";

const draftOf = (of: Tree, conflicts: readonly Conflict[]) =>
  prescribe([of], conflicts, [setting()], standard, planOptions())[0]!;
/** A line one meter beside the trunk, so high above it that its 10 ft end at a height. */
const lineOver = (endsM: number, over: Parameters<typeof conflict>[2] = {}) =>
  conflict("conductor", 0.3, { distanceM: 1, wireM: endsM + 3.048, ...over });

describe("leaders under a line", () => {
  it("come down to laterals that grow away from it, as a visit of line-clearance arborists", () => {
    // A vase from 3 to 9 m, the line's 10 ft end at 8.5 m: u = 0.9167, above it 1 - u^2 = 16.0 %. Limbs there are 0.4 x 0.957 of the stem.
    const draft = draftOf(tree({ heightM: 9, habit: "vase" }), [lineOver(8.5)]);
    expect(draft.refer).toBeNull();
    const [option] = draft.options;
    expect(option!.leadersToM).toBeCloseTo(8.5, 9);
    expect(option!.doseByVolumeShare).toBeCloseTo(1 - (5.5 / 6) ** 2, 9);
    // Five years of the cycle: 3.048 m lose 1.5 m in them, 0.457 m is the minimum.
    expect(option!.lastsYears).toBe(5);
    const [stage] = draft.stages;
    expect(stage!.crew).toBe("line-clearance");
    expect(stage!.tasks[0]!.where).toContain("leaders that reach above 8.5 m, each back to a lateral");
    expect(stage!.tasks[0]!.cut).toBe("reduction");
    expect(stage!.tasks[0]!.how).toContain("stays as it is, and the line's owner is told");
    expect(draft.why).toContain("Cutting leaders back to laterals that grow away from the line takes about 16 %");
  });

  it("come down farther where the laterals begin farther down, and not at all where there are none", () => {
    // Limbs of a third are those of 5/6 of the radius. An ellipsoid from 2 to 10 m is as wide up to u = (1 + sqrt(1 - 25/36)) / 2 = 0.776, 8.21 m.
    const low = draftOf(tree({ heightM: 10, baseM: 2 }), [lineOver(9.5)]).options[0]!;
    expect(low.leadersToM).toBeGreaterThan(8.21 - 0.06);
    expect(low.leadersToM).toBeLessThan(8.22);
    expect(low.ruledOutBy).toBeNull();
    // A cone is so wide below u = 1/6 only.
    const cone = draftOf(tree({ heightM: 10, baseM: 2, habit: "cone" }), [lineOver(9.5)]);
    expect(cone.refer?.code).toBe("only-top-would-cure");
    expect(cone.stages).toEqual([]);
    // One that is wide toward the line alone has nothing to take over on the other side: 0.4 x 1.5 / 3 is a fifth.
    const radii = { northM: 4.5, eastM: 4.5, southM: 1.5, westM: 1.5 };
    const sided = draftOf(tree({ heightM: 9, habit: "vase", radiusM: 3, radii }), [lineOver(8.5, { bearingDeg: 45 })]);
    expect(sided.refer?.reason).toContain("would be topping");
  });

  it.each([
    ["a conifer", tree({ heightM: 9, habit: "column", form: "conifer" })],
    ["a broad-leaved name of conifers", tree({ heightM: 9, habit: "column", traits: traits({ isConifer: true }) })],
    ["a palm", tree({ heightM: 9, habit: "vase", form: "palm" })],
  ])("never come down of %s", (_name, of) => {
    const draft = draftOf(of, [lineOver(8.5)]);
    expect(draft.refer?.code).toBe("only-top-would-cure");
    expect(draft.stages).toEqual([]);
  });

  it("keep to the season's dose and to the live crown, in one visit", () => {
    // Live crown on 5 of 9 m is 56 %, which may get no less: 4.5 of 8.5 m would be 53 %.
    const bare = draftOf(tree({ heightM: 9, baseM: 4, habit: "vase" }), [lineOver(8.5)]);
    expect(bare.stages).toEqual([]);
    expect(bare.options[0]!.ruledOutBy).toContain("live crown on 53 %");
    // 1 - (5.8/8)^2 = 47 %; to 1.5 m beyond the minimum, 1.09 m higher, still 1 - (6.89/8)^2 = 26 %. Stages may not divide it.
    const low = draftOf(tree({ heightM: 9, baseM: 1, habit: "vase" }), [lineOver(6.8)]);
    expect(low.options[0]!.ruledOutBy).toContain("takes 47 %");
    expect(low.stages).toEqual([]);
    // 1 - (6.4/8)^2 = 36 %; 1.09 m higher still 12 %.
    const poor = draftOf(tree({ heightM: 9, baseM: 1, habit: "vase", condition: "poor" }), [lineOver(7.4)]);
    expect(poor.refer?.reason).toContain("takes 36 % of the live crown; at most 10 %");
  });

  it("stay where cuts on the side of the line are lighter", () => {
    // The line passes 2.8 m beside the trunk: to 10 ft the leader would come down to 5.95 m; to 1.5 m beyond the minimum tips will do.
    const beside = conflict("conductor", 0.2, { distanceM: 2.8, wireM: 9 });
    const draft = draftOf(tree({ heightM: 10, radiusM: 2.6 }), [beside]);
    const chosen = draft.options[draft.chosen!]!;
    expect(chosen.leadersToM).toBeUndefined();
    expect(draft.options[0]!.leadersToM).toBeCloseTo(9 - 3.048, 9);
    expect(draft.tasks[0]!.targetM).toBeGreaterThanOrEqual(0.4572 + 1.5 - 1e-9);
    expect(draft.cautions.join(" ")).toContain("Cleared less than the usual 3.0 m from the overhead line");
  });

  it("are no leaders in a hedge, which is trimmed below the line", () => {
    const hedge = tree({ form: "hedge", habit: "column", heightM: 6, baseM: 0, radiusM: 1 });
    const draft = draftOf(hedge, [lineOver(5.4)]);
    expect(draft.tasks[0]!.where).toBe("all round, down to 5.4 m");
    expect(draft.tasks[0]!.method).toBe("hand");
    expect(draft.tasks[0]!.doseShare).toBeCloseTo(0.6 / 6, 9);
  });
});
