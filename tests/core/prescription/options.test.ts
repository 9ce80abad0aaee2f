import { describe, expect, it } from "vitest";
import { crownOf } from "../../../src/core/crown/crown.ts";
import { rayRadiiM } from "../../../src/core/crown/dose.ts";
import type { Conflict } from "../../../src/core/model/conflict.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { computeOptions, lightest } from "../../../src/core/prescription/options.ts";
import { tradeOffWords } from "../../../src/core/prescription/trade-off-words.ts";
import { conflict, standard, traits, tree } from "./scene.ts";

const optionsOf = (of: Tree, conflicts: readonly Conflict[], limit = 0.25) =>
  computeOptions({ tree: of, crown: crownOf(of), radiiM: rayRadiiM(crownOf(of)) }, conflicts, limit, standard);

describe("the options of a tree", () => {
  it("are three over a way, two at a wall, each with its figures", () => {
    expect(optionsOf(tree(), [conflict("roadway", 3)]).map(({ option }) => option.remedy)).toEqual([
      "shorten",
      "remove-limb",
      "lift",
    ]);
    expect(
      optionsOf(tree(), [conflict("building-side", 0, { distanceM: 4 })]).map(({ option }) => option.remedy),
    ).toEqual(["shorten", "remove-limb"]);
  });

  it("lift a column crown by the share of its depth", () => {
    // Column from 2 to 12 m. Five years would need 4.2672 + 5 * 0.12 = 4.867 m, but 60 percent live crown allows 12 * 0.4 = 4.8 m.
    // In half-year steps from 0.3048 / 0.12 = 2.54 years the last one allowed is 4.04 years, 4.752 m; 4.54 years would be 4.812 m.
    const lift = optionsOf(tree({ habit: "column", baseM: 2 }), [conflict("roadway", 3)], 0.4)[2]!;
    expect(lift.option.lastsYears).toBeCloseTo(0.3048 / 0.12 + 1.5, 9);
    expect(lift.option.liftToM).toBeCloseTo(4.2672 + 0.12 * (0.3048 / 0.12 + 1.5), 9);
    expect(lift.option.doseByVolumeShare).toBeCloseTo((lift.option.liftToM! - 2) / 10, 9);
    expect(lift.option.doseByLeafShare).toBeCloseTo((lift.option.liftToM! - 2) / 10, 9);
    expect(lift.option.dosePerYear).toBeCloseTo(lift.option.doseShare / lift.option.lastsYears, 12);
    expect(lift.option.ruledOutBy).toBeNull();
  });

  it("count the larger of volume and leaf", () => {
    for (const { option } of optionsOf(tree(), [conflict("roadway", 3, { distanceM: 2 })])) {
      expect(option.doseShare).toBe(Math.max(option.doseByVolumeShare, option.doseByLeafShare));
    }
  });

  it("apply their remedy to each conflict that admits it and shorten the rest", () => {
    const both = [
      conflict("roadway", 3, { bearingDeg: 0 }),
      conflict("building-side", 0, { distanceM: 4, bearingDeg: 180 }),
    ];
    const lift = optionsOf(tree(), both)[2]!;
    expect(lift.cuts.map((cut) => cut.remedy)).toEqual(["lift", "shorten"]);
  });

  it("last until the next cycle where the limit allows, and are the clear-to at least", () => {
    const [shorten] = optionsOf(tree(), [conflict("roadway", 4, { distanceM: 2.5 })]);
    expect(shorten!.option.lastsYears).toBe(5);
    const [tight] = optionsOf(tree(), [conflict("roadway", 4, { distanceM: 2.5 })], 0.001);
    expect(tight!.ruledOut?.limit).toBe("dose");
    expect(tight!.option.lastsYears).toBeCloseTo(0.3048 / 0.32, 9);
  });
});

describe("limits", () => {
  it("keep the live crown at 60 percent of the height", () => {
    // 10 m tree, target 4.572 m at least: (10 - 4.572) / 10 = 0.54.
    const lift = optionsOf(tree({ heightM: 10, baseM: 2 }), [conflict("roadway", 3)], 0.9)[2]!;
    expect(lift.ruledOut?.limit).toBe("live-crown");
    expect(lift.option.liveCrownRatioAfter).toBeCloseTo(0.5428, 4);
  });

  it("let a live crown that is lower already get no worse", () => {
    // Base at 6 of 12 m: 0.5 before. A lift to 4.6 m takes nothing and leaves it; the 60 percent rule does not forbid it.
    const lift = optionsOf(tree({ baseM: 6 }), [conflict("roadway", 3)])[2]!;
    expect(lift.option.liveCrownRatioAfter).toBeCloseTo(0.5, 12);
    expect(lift.ruledOut).toBeNull();
    // One to a roof's height would.
    const higher = conflict("roadway", 3, { clearToM: 7 });
    const worse = optionsOf(tree({ baseM: 6 }), [{ ...higher, region: { ...higher.region, highM: 7 } }], 0.9)[2]!;
    expect(worse.ruledOut?.limit).toBe("live-crown");
  });

  it("do not cut conifers back into bare wood", () => {
    const conifer = tree({
      form: "conifer",
      habit: "column",
      traits: traits({ isConifer: true, isEvergreen: true, radiusGrowthMPerYear: 0 }),
    });
    // Tips of 4 - 2.5 = 1.5 m are 37 percent of the limb, 4 - 3 = 1 m a quarter.
    expect(optionsOf(conifer, [conflict("roadway", 3, { distanceM: 2.5 })])[0]!.ruledOut?.limit).toBe("form");
    expect(optionsOf(conifer, [conflict("roadway", 3, { distanceM: 3 })])[0]!.ruledOut).toBeNull();
  });

  it("never lift a shrub, and take only fronds below the horizontal off a palm", () => {
    const hedge = tree({ form: "hedge", habit: "column", heightM: 2, baseM: 0, radiusM: 1 });
    const [trim, limb, lift] = optionsOf(hedge, [conflict("walkway", 0, { distanceM: 0.8 })]);
    expect([trim!.ruledOut, limb!.ruledOut?.limit, lift!.ruledOut?.limit]).toEqual([null, "form", "form"]);
    const palm = tree({ form: "palm", heightM: 9, baseM: 4, radiusM: 2 });
    const ruled = optionsOf(palm, [conflict("roadway", 4)]).map(({ ruledOut }) => ruledOut?.limit ?? null);
    // Horizontal at 6.5 m; whole fronds up to 4.87 m may go, tips may not.
    expect(ruled).toEqual(["form", null, null]);
  });

  it("do not take limbs thicker than half the stem", () => {
    // Our estimate is 0.4 of the stem for a limb of mean radius; one 1.5 times as long is 0.6 of it.
    const oneSided = tree({ habit: "column", radiusM: 4, radii: { northM: 3, eastM: 6, southM: 3, westM: 3 } });
    const limb = optionsOf(oneSided, [conflict("roadway", 3)], 0.9)[1]!;
    expect(limb.ruledOut?.limit).toBe("limb");
  });
});

it("prescribes the least dose per year that is allowed", () => {
  const candidates = optionsOf(tree(), [conflict("roadway", 3.5)]);
  const best = lightest(candidates)!;
  for (const { option, ruledOut } of candidates) {
    if (ruledOut === null) expect(best.option.dosePerYear).toBeLessThanOrEqual(option.dosePerYear + 1e-9);
  }
  expect(lightest(optionsOf(tree(), [conflict("roadway", 3.5)], 0))).toBeNull();
});

describe("what lasts longer costs more", () => {
  // A column from 2 m, 10 m deep, loses 10 percent with each meter of lift; limbs that were taken off come back by 0.12 m a year.
  const column = tree({ habit: "column", baseM: 2, dbhM: 0.6, traits: traits({ radiusGrowthMPerYear: 0 }) });
  const subject = { tree: column, crown: crownOf(column), radiiM: rayRadiiM(crownOf(column)) };
  const liftOf = (limitShare: number) =>
    computeOptions(subject, [conflict("walkway", 2)], limitShare, standard).find(
      ({ option }) => option.remedy === "lift",
    )!;

  it("is told at the least target, as prescribed, and for a whole cycle", () => {
    // Walk: 2.4384 m, clear-to 2.7432. 0.3048 / 0.12 = 2.54 years at 7.4 percent; 5 years need 2.4384 + 0.6 = 3.0384 m, 10.4 percent.
    const { option } = liftOf(0.25);
    expect(option.lastsYears).toBe(5);
    expect(option.targets).toEqual([
      { lastsYears: expect.closeTo(2.54, 9), doseShare: expect.closeTo(0.07432, 6), ruledOutBy: null },
      { lastsYears: 5, doseShare: expect.closeTo(0.10384, 6), ruledOutBy: null },
    ]);
    expect(tradeOffWords(option)).toBe("2 years at 7 %, 5 years at 10 %");
  });

  it("has what is prescribed between them where the limit stops it, in half years", () => {
    // 9 percent reach 2.9 m: (2.9 - 2.4384) / 0.12 = 3.85 years, so 2.54 + 1 = 3.54 is the last allowed.
    const { option } = liftOf(0.09);
    expect(option.lastsYears).toBeCloseTo(3.54, 9);
    expect(option.targets!.map(({ lastsYears }) => lastsYears)).toEqual([
      expect.closeTo(2.54, 9),
      option.lastsYears,
      5,
    ]);
    expect(option.targets!.map(({ ruledOutBy }) => ruledOutBy === null)).toEqual([true, true, false]);
    expect(tradeOffWords(option)).toBe("2 years at 7 %, 3 years at 9 %, 5 years at 10 % (not allowed)");
  });

  it("says nothing where there is no choice", () => {
    const { option } = liftOf(0.25);
    expect(tradeOffWords({ ...option, targets: option.targets!.slice(0, 1) })).toBe("");
    const { targets: _targets, ...older } = option;
    expect(tradeOffWords(older)).toBe("");
  });
});
