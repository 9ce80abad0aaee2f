import { describe, expect, it } from "vitest";
import type { Conflict } from "../../src/core/model/conflict.ts";
import type { Certainty } from "../../src/core/model/terms.ts";
import { OPTIONS } from "../core/conflict/scene.ts";
import { besideEach, conflictsToday } from "./coverage/places.ts";
import { draw, seenTrees, trueTrees } from "./coverage/simulate.ts";

/**
 * What the three certainties are worth, by simulation on the campus's raw measurements (tests/fixtures/ubc/sizes.csv), which are taken for the truth.
 * Each tree stands beside a surveyed road, walk, building or taut wire, from against the trunk to past its crown's edge. The tool sees the tree as
 * an inventory would: measured with errors drawn from the stated model (height and radius ± 10 %, crown base ± 0.3 m, 90 % of a normal
 * distribution), or with its names and stem alone, when it estimates. Growth is left out: only conflicts of the day count.
 *
 * The truth's crown has the profile that the tool gives the species, or one of all six drawn at random, which is worse than any inventory.
 */
const TIMES = 2;

describe("sizes measured with the stated errors", () => {
  const truths = draw(1, TIMES, true);
  const seen = seenTrees(truths);
  const around = besideEach(truths.map(({ beside }) => beside));
  const found = conflictsToday(seen, around);

  it("lie in their 90 % intervals nine times in ten", () => {
    for (const [size, of] of [
      ["height", "heightM"],
      ["crownBase", "baseM"],
      ["radius", "radiusM"],
    ] as const) {
      const held = truths.filter(({ is }, at) => is[of] >= seen[at]![size].lowM && is[of] <= seen[at]![size].highM);
      // 2,800 draws: three standard deviations of a share of 90 % are 1.7 %.
      expect(Math.abs(held.length / truths.length - 0.9), size).toBeLessThan(0.025);
    }
  });

  it("find every conflict of the true crown, 99 in 100, where the profile is right", () => {
    const tally = compare(found, conflictsToday(trueTrees(truths, seen, "as-seen"), around));
    expect(tally.real).toBeGreaterThan(1_500);
    expect(tally.found / tally.real).toBeGreaterThan(0.99);
    expect(tally.sure / tally.real).toBeGreaterThan(0.94);
    expect(tally.holds("confirmed")).toBeGreaterThan(0.995);
    expect(tally.holds("probable")).toBeGreaterThan(0.85);
    expect(tally.holds("possible")).toBeLessThan(0.4);
  });

  it("confirm what holds for whatever profile the crown has, 95 in 100 and more", () => {
    const real = conflictsToday(trueTrees(truths, seen, "any"), around);
    expect(compare(found, real).holds("confirmed")).toBeGreaterThan(0.97);
    for (const kind of ["roadway", "walkway", "building-side", "building-roof", "conductor"] as const) {
      const tally = compare(found, real, kind);
      expect(tally.count("confirmed"), kind).toBeGreaterThan(60);
      // At most 60 to 250 a kind: two standard deviations of 95 % are 5 %.
      expect(tally.holds("confirmed"), kind).toBeGreaterThan(0.9);
    }
  });

  it("find the conflicts of a crown of whatever profile, 99 in 100", () => {
    const real = conflictsToday(trueTrees(truths, seen, "any"), around);
    const tally = compare(found, real);
    expect(tally.found / tally.real).toBeGreaterThan(0.985);
    for (const kind of ["roadway", "walkway", "building-side", "building-roof", "conductor"] as const) {
      const ofKind = compare(found, real, kind);
      expect(ofKind.found / ofKind.real, kind).toBeGreaterThan(0.97);
    }
  });
});

describe("sizes estimated from the stem", () => {
  const truths = draw(2, TIMES, false);
  const seen = seenTrees(truths);
  const around = besideEach(truths.map(({ beside }) => beside));
  const found = conflictsToday(seen, around);

  it.each(["as-seen", "any"] as const)("find the true crown's conflicts, 97 in 100 and more; profile %s", (habits) => {
    const tally = compare(found, conflictsToday(trueTrees(truths, seen, habits), around));
    expect(tally.real).toBeGreaterThan(1_500);
    expect(tally.found / tally.real).toBeGreaterThan(0.97);
    expect(tally.count("confirmed")).toBe(0);
    expect(tally.holds("probable")).toBeGreaterThan(0.7);
    expect(tally.holds("possible")).toBeLessThan(0.4);
  });
});

interface Comparison {
  /** Conflicts that the true crowns have; of them those found at all, and those found as probable or more. */
  readonly real: number;
  readonly found: number;
  readonly sure: number;
  /** Conflicts called so. */
  readonly count: (certainty: Certainty) => number;
  /** Share of the conflicts called so that the true crown has. */
  readonly holds: (certainty: Certainty) => number;
}

function compare(
  found: ReadonlyMap<string, Conflict>,
  truth: ReadonlyMap<string, Conflict>,
  kind: Conflict["kind"] | null = null,
): Comparison {
  const isOf = (conflict: Conflict): boolean => kind === null || conflict.kind === kind;
  const isReal = (key: string): boolean => truth.get(key)?.reachedOn === OPTIONS.asOf;
  const real = [...truth].filter(([key, conflict]) => isOf(conflict) && isReal(key)).map(([key]) => key);
  const called = (certainty: Certainty): string[] =>
    [...found].filter(([, conflict]) => isOf(conflict) && conflict.certainty === certainty).map(([key]) => key);
  return {
    real: real.length,
    found: real.filter((key) => found.has(key)).length,
    sure: real.filter((key) => found.has(key) && found.get(key)!.certainty !== "possible").length,
    count: (certainty) => called(certainty).length,
    holds: (certainty) => called(certainty).filter(isReal).length / called(certainty).length,
  };
}
