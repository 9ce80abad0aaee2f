import { describe, expect, it } from "vitest";
import { findConflicts } from "../../src/core/conflict/find-conflicts.ts";
import type { Conflict } from "../../src/core/model/conflict.ts";
import type { RuleCases } from "../../src/core/model/load-cases.ts";
import { CERTAINTIES } from "../../src/core/model/terms.ts";
import { treeTable } from "../../src/core/model/tree-table.ts";
import type { Standard } from "../../src/core/standard/standard.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import {
  features,
  type Layers,
  line,
  OPTIONS,
  only,
  polygon,
  STANDARD,
  search,
  type TreeGiven,
  tree,
} from "../core/conflict/scene.ts";
import { randomAreas, randomLine } from "./brute-force/plan-shape.ts";
import { randomTree } from "./brute-force/scene-tree.ts";
import { seeded } from "./brute-force/seeded.ts";

/**
 * What makes a scene worse never removes a conflict, nor makes one less sure: a larger radius, a larger minimum, more load cases, and under ways
 * and beside walls a lower crown base. Every habit, round and uneven, upright and leaning, measured and estimated.
 */
const SCENES = 250;

describe("a worse scene", () => {
  it("with a larger radius loses nothing, of any kind", () => {
    each((next, given, layers) => {
      const before = find(given, layers);
      const more = 1 + next() ** 2;
      const { northM, eastM, southM, westM } = given.radii!;
      const radii = { northM: northM * more, eastM: eastM * more, southM: southM * more, westM: westM * more };
      expectNoLess(before, find({ ...given, radiusM: given.radiusM * more, radii }, layers));
      return before;
    });
  });

  it("with a lower crown base loses nothing under ways and beside walls", () => {
    each((next, given, layers) => {
      const of = (conflicts: readonly Conflict[]): Conflict[] =>
        conflicts.filter(({ kind }) => kind === "roadway" || kind === "walkway" || kind === "building-side");
      const before = of(find(given, layers));
      expectNoLess(before, of(find({ ...given, baseM: given.baseM * next() }, layers)));
      return before;
    });
  });

  it("with larger minimums loses nothing, of any kind", () => {
    each((next, given, layers) => {
      const before = find(given, layers);
      const moreM = next() * 2;
      const stricter: Standard = {
        ...STANDARD,
        rules: STANDARD.rules.map((rule) => ({
          ...rule,
          minimumM: rule.minimumM + moreM,
          clearToM: rule.clearToM + moreM,
          byAltitude: rule.byAltitude.map((band) => ({ ...band, minimumM: band.minimumM + moreM })),
        })),
      };
      expectNoLess(before, find(given, layers, stricter));
      return before;
    });
  });

  it("in more load cases loses nothing", () => {
    const nested: readonly RuleCases[] = ["still", "go-95-rule-35", "blow-out"];
    each((_next, given, layers) => {
      const found = nested.map((cases) => find(given, { conductors: layers.conductors! }, inCases(cases)));
      expectNoLess(found[0]!, found[1]!);
      expectNoLess(found[1]!, found[2]!);
      return found[2]!;
    });
  });
});

describe("a lower crown base can free", () => {
  it("a roof beside the upper half: the same crown, deeper, is slimmer there", () => {
    // A cone of 3 m on a trunk 2 m from a flat roof at 5 m. From base 5 to top 10 it is 3 m wide at the roof's height; from base 0, 1.5 m.
    const cone = { heightM: 10, radiusM: 3, habit: "cone", error: 0.001 } as const;
    const buildings = features("buildings", {
      geometry: polygon([
        [2, -5],
        [9, -5],
        [9, 5],
        [2, 5],
      ]),
      properties: { height: 5 },
    });
    expect(only(search([{ ...cone, baseM: 5 }], { buildings }).conflicts, "building-roof").certainty).toBe("probable");
    // Deeper, it is only possible: were it no cone.
    expect(only(search([{ ...cone, baseM: 0 }], { buildings }).conflicts, "building-roof").certainty).toBe("possible");
  });

  it("and is possible where the base may be that high: both ends of its interval are tried", () => {
    // As deep as to the ground it clears the roof; with a base between 0 and 5 m it may not.
    const deep = tree({ heightM: 10, radiusM: 3, baseM: 0, habit: "cone", error: 0.001, basis: "estimated" });
    const crownBase = { ...deep.crownBase, highM: 5 };
    const layers = {
      buildings: features("buildings", {
        geometry: polygon([
          [2, -5],
          [9, -5],
          [9, 5],
          [2, 5],
        ]),
        properties: { height: 5 },
      }),
    };
    const { surroundings } = buildSurroundings(layers, {}, STANDARD, OPTIONS);
    const { conflicts } = findConflicts(
      treeTable([{ ...deep, crownBase }]),
      surroundings,
      STANDARD,
      OPTIONS,
      new Map(),
    );
    expect(only(conflicts, "building-roof").certainty).toBe("possible");
  });
});

function each(run: (next: () => number, given: TreeGiven, layers: Layers) => readonly Conflict[]): void {
  const kinds = new Set<string>();
  const certainties = new Set<string>();
  for (let seed = 1; seed <= SCENES; seed += 1) {
    const next = seeded(31_000_000 + seed);
    const { given } = randomTree(next);
    const error = next() < 0.5 ? 0.001 : next() * 0.3;
    const basis = next() < 0.5 ? ("measured" as const) : ("estimated" as const);
    for (const conflict of run(next, { ...given, error, basis }, layersOf(next))) {
      kinds.add(conflict.kind);
      certainties.add(conflict.certainty);
    }
  }
  // Not a test of nothing.
  expect(kinds.size).toBeGreaterThan(0);
  expect([...certainties].sort()).toEqual([...CERTAINTIES].sort());
}

const find = (given: TreeGiven, layers: Layers, standard: Standard = STANDARD): readonly Conflict[] =>
  search([given], layers, standard).conflicts;

/** Every conflict is still there, at least as sure, and one of today is still one of today. */
function expectNoLess(before: readonly Conflict[], after: readonly Conflict[]): void {
  for (const conflict of before) {
    const same = after.find(({ conflictId }) => conflictId === conflict.conflictId);
    const was = `${conflict.kind} ${conflict.certainty} ${conflict.measuredM}`;
    expect(same, was).toBeDefined();
    expect(CERTAINTIES.indexOf(same!.certainty), `${was}, now ${same!.certainty}`).toBeLessThanOrEqual(
      CERTAINTIES.indexOf(conflict.certainty),
    );
    if (conflict.reachedOn === OPTIONS.asOf) expect(same!.reachedOn, was).toBe(OPTIONS.asOf);
  }
}

const inCases = (loadCases: RuleCases): Standard => ({
  ...STANDARD,
  rules: STANDARD.rules.map((rule) => (rule.kind === "conductor" ? { ...rule, loadCases } : rule)),
});

/** A road, a walk by its center, a building and a wire, wherever they come to lie: each is measured by itself. */
function layersOf(next: () => number): Layers {
  const [road, block] = [randomAreas(next).polygons[0]![0]!, randomAreas(next).polygons[0]![0]!];
  const walk = randomLine(next, 2);
  const [x, y] = [(next() - 0.5) * 14, (next() - 0.5) * 14];
  const height = 3 + next() * 9;
  return {
    roads: features("roads", { geometry: polygon(road), properties: { class: "local" } }),
    paths: features("paths", { geometry: line(walk.line), properties: { class: "sidewalk", width: 2 * walk.halfM } }),
    buildings: features("buildings", { geometry: polygon(block), properties: { height } }),
    conductors: features("conductors", {
      geometry: line([
        [x - 25, y],
        [x + 30, y + 8],
      ]),
      properties: {
        voltage: 12_000,
        attachment_height_1: 5 + next() * 8,
        attachment_height_2: 6 + next() * 8,
        sag: 0.3 + next() * 2,
        ...(next() < 0.5 ? { conductor: "4/0 6/1 ACSR" } : {}),
      },
    }),
  };
}
