import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Conflict } from "../../src/core/model/conflict.ts";
import { RULE_CASES, type RuleCases } from "../../src/core/model/load-cases.ts";
import { HABITS, type Habit } from "../../src/core/model/terms.ts";
import type { Standard } from "../../src/core/standard/standard.ts";
import { features, type Layers, line, OPTIONS, STANDARD, search, type TreeGiven } from "../core/conflict/scene.ts";

/** A tree at the origin and a line of two spans past it, with or without sag, height and type on record. */
interface Scene {
  readonly heightM: number;
  readonly baseShare: number;
  readonly radiusM: number;
  readonly habit: Habit;
  readonly asideM: number;
  readonly alongM: number;
  readonly turnM: number;
  readonly attachmentM: number | null;
  readonly sagM: number | null;
  readonly conductor: string | null;
  readonly insulatorM: number;
  readonly basis: "measured" | "estimated";
}

const double = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

const scenes: fc.Arbitrary<Scene> = fc.record({
  heightM: double(4, 22),
  baseShare: double(0, 0.6),
  radiusM: double(1, 6),
  habit: fc.constantFrom(...HABITS),
  asideM: double(0, 9),
  alongM: double(0, 60),
  turnM: double(-20, 20),
  attachmentM: fc.option(double(8, 14)),
  sagM: fc.option(double(0, 2)),
  conductor: fc.option(fc.constantFrom("4/0", "795 26/7", "6")),
  insulatorM: fc.constantFrom(0, 1),
  basis: fc.constantFrom("measured", "estimated"),
});

const layersOf = (scene: Scene): Layers => ({
  conductors: features("conductors", {
    geometry: line([
      [-scene.alongM, scene.asideM],
      [60 - scene.alongM, scene.asideM],
      [110 - scene.alongM, scene.asideM + scene.turnM],
    ]),
    properties: {
      id: "L",
      voltage: 12_000,
      attachment_height_1: scene.attachmentM,
      attachment_height_2: scene.attachmentM,
      sag: scene.sagM,
      conductor: scene.conductor,
      insulator_length: scene.insulatorM,
    },
  }),
});

const treeOf = (scene: Scene, change: Partial<TreeGiven> = {}): TreeGiven => ({
  heightM: scene.heightM,
  baseM: scene.heightM * scene.baseShare,
  radiusM: scene.radiusM,
  habit: scene.habit,
  basis: scene.basis,
  radiusGrowthM: 0.05,
  heightGrowthM: 0.2,
  ...change,
});

const withRule = (change: { loadCases?: RuleCases; moreM?: number }): Standard => ({
  ...STANDARD,
  rules: STANDARD.rules.map((rule) =>
    rule.kind === "conductor"
      ? {
          ...rule,
          loadCases: change.loadCases ?? rule.loadCases,
          minimumM: rule.minimumM + (change.moreM ?? 0),
          clearToM: rule.clearToM + (change.moreM ?? 0),
        }
      : rule,
  ),
});

const SURENESS = { confirmed: 3, probable: 2, possible: 1 } as const;
/** How sure the conflict with the line is, 0 for none; and how sure one that is there today. */
function sureness(conflicts: readonly Conflict[]): readonly [ever: number, today: number] {
  const found = conflicts.find(({ kind }) => kind === "conductor");
  if (found === undefined) return [0, 0];
  const sure = SURENESS[found.certainty];
  return [sure, found.reachedOn === OPTIONS.asOf ? sure : 0];
}

function expectNotLess(after: readonly Conflict[], before: readonly Conflict[]): void {
  const [everBefore, todayBefore] = sureness(before);
  const [everAfter, todayAfter] = sureness(after);
  expect(everAfter).toBeGreaterThanOrEqual(everBefore);
  expect(todayAfter).toBeGreaterThanOrEqual(todayBefore);
}

const RUN = { seed: 4, numRuns: 300 };

describe("a conflict with a line never goes, nor gets less sure,", () => {
  it("by a larger radius", () => {
    fc.assert(
      fc.property(scenes, double(0.01, 3), (scene, moreM) => {
        const layers = layersOf(scene);
        const after = search([treeOf(scene, { radiusM: scene.radiusM + moreM })], layers).conflicts;
        expectNotLess(after, search([treeOf(scene)], layers).conflicts);
      }),
      RUN,
    );
  });

  it("by a lower crown base where all the old crown stays: vases and columns", () => {
    fc.assert(
      fc.property(scenes, fc.constantFrom<Habit>("vase", "column"), double(0, 1), (scene, habit, share) => {
        // Estimated: the sizes are then not held against the other shapes, whose tops draw in as the base goes down.
        const given: Scene = { ...scene, habit, basis: "estimated" };
        const layers = layersOf(given);
        const lower = treeOf(given, { baseM: given.heightM * given.baseShare * share });
        expectNotLess(search([lower], layers).conflicts, search([treeOf(given)], layers).conflicts);
      }),
      RUN,
    );
  });

  it("by a larger minimum", () => {
    fc.assert(
      fc.property(scenes, double(0.01, 2), (scene, moreM) => {
        const layers = layersOf(scene);
        const after = search([treeOf(scene)], layers, withRule({ moreM })).conflicts;
        expectNotLess(after, search([treeOf(scene)], layers).conflicts);
      }),
      RUN,
    );
  });

  it("by a wider set of load cases", () => {
    const WIDER: readonly (readonly [RuleCases, RuleCases])[] = [
      ["still", "go-95-rule-35"],
      ["go-95-rule-35", "blow-out"],
      ["still", "prc-4293"],
    ];
    for (const [few, more] of WIDER) expect(RULE_CASES[more]).toEqual(expect.arrayContaining([...RULE_CASES[few]]));
    fc.assert(
      fc.property(scenes, fc.constantFrom(...WIDER), (scene, [few, more]) => {
        const layers = layersOf(scene);
        const before = search([treeOf(scene)], layers, withRule({ loadCases: few })).conflicts;
        const after = search([treeOf(scene)], layers, withRule({ loadCases: more })).conflicts;
        expectNotLess(after, before);
        const gap = (conflicts: readonly Conflict[]): number => conflicts[0]?.measuredM ?? Number.POSITIVE_INFINITY;
        // The least over the cases; each is searched to a centimeter.
        expect(gap(after)).toBeLessThanOrEqual(gap(before) + 0.01);
      }),
      RUN,
    );
  });
});
