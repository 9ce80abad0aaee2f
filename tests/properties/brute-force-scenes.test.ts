import type { Geometry } from "geojson";
import { describe, expect, it } from "vitest";
import { findConflicts } from "../../src/core/conflict/find-conflicts.ts";
import type { Conflict } from "../../src/core/model/conflict.ts";
import type { ConflictKind } from "../../src/core/model/terms.ts";
import { treeTable } from "../../src/core/model/tree-table.ts";
import type { Surroundings } from "../../src/core/surroundings/surroundings.ts";
import { features, type Layers, line, OPTIONS, ring, STANDARD, search, tree } from "../core/conflict/scene.ts";
import {
  EDGE_STEP_M,
  isIn,
  type PlanShape,
  randomAreas,
  randomLine,
  samplesOf,
  toBoundary,
} from "./brute-force/plan-shape.ts";
import { randomTree, type SceneTree } from "./brute-force/scene-tree.ts";
import { SCENES, seeded, TIMEOUT_MS } from "./brute-force/seeded.ts";
import { HEIGHT_STEPS, lowestSampled, outlineAt, type Solid, shareAt, widestSampled } from "./brute-force/solid.ts";

/**
 * The engine against samples of both solids: the thing every 4 cm along its boundary and every half meter over it, the crown at a thousand
 * heights. No index, no planes, no code of the engine; the formulas are the design's, written again.
 *
 * A sample is never nearer than the truth, and the truth never nearer than half a step of the boundary: the engine's figure must lie between
 * the two. Scenes in which that step decides whether there is a conflict at all are counted, and must be few.
 */
const FT = 0.3048;
const MINIMUM_M: Readonly<Partial<Record<ConflictKind, number>>> = {
  roadway: 14 * FT,
  walkway: 8 * FT,
  "building-side": 3 * FT,
  "building-roof": 6 * FT,
};
const WINDOW_M = [2.5 * FT, 8 * FT] as const;
/** Half a step along the boundary. */
const HALF_STEP_M = EDGE_STEP_M / 2;
/** A widened line's round end is a polygon of 32 sides to a crown of four radii: at most 1 - cos(pi / 32) of half the width inside. */
const CAP_SHARE = 1 - Math.cos(Math.PI / 32);
/** A thousand heights miss a profile's greatest width by less than 2 / 2000^2. */
const WIDTH_ERROR = 1e-5;
/** Coordinates go through degrees and back. */
const ROUNDING = 1e-7;

interface Tally {
  yes: number;
  no: number;
  hair: number;
}

describe.each([
  ["roads as areas", "roadway", randomAreas],
  ["roads as centerlines with a width", "roadway", (next: () => number) => randomLine(next, 5)],
  ["walks as areas", "walkway", randomAreas],
  ["walks as lines with a width", "walkway", (next: () => number) => randomLine(next, 2)],
] as const)("%s", (name, kind, shapeOf) => {
  it(
    `are what sampling finds in ${SCENES} scenes`,
    () => {
      const tally = run(name, (next, seed) => {
        const scene = randomTree(next);
        const shape = shapeOf(next);
        const found = now(search([scene.given], wayLayers(shape, kind)).conflicts, kind);
        return judgeUnderside(seed, scene, shape, found, [Number.NEGATIVE_INFINITY, MINIMUM_M[kind]!], 0);
      });
      expectEnough(tally);
    },
    TIMEOUT_MS,
  );
});

describe("roofs", () => {
  it(
    `are what sampling finds in ${SCENES} scenes`,
    () => {
      const tally = run("roofs", (next, seed) => {
        const scene = randomTree(next);
        const shape = randomAreas(next);
        const roofM = 2 + next() * 10;
        const found = now(search([scene.given], { buildings: building(shape, roofM) }).conflicts, "building-roof");
        if (isIn(shape, ...scene.foot)) return expectNone(seed, found);
        return judgeUnderside(seed, scene, shape, found, [roofM, roofM + MINIMUM_M["building-roof"]!], roofM);
      });
      expectEnough(tally);
    },
    TIMEOUT_MS,
  );
});

describe("sight triangles", () => {
  it(
    `are what sampling finds in ${SCENES} scenes`,
    () => {
      const tally = run("sight", (next, seed) => {
        const scene = randomTree(next);
        const shape = randomAreas(next);
        const found = now(searchSight(scene, shape), "sight-triangle");
        return judgeUnderside(seed, scene, shape, found, WINDOW_M, 0);
      });
      expectEnough(tally);
    },
    TIMEOUT_MS,
  );
});

describe("walls", () => {
  it(
    `are what sampling finds in ${SCENES} scenes`,
    () => {
      const tally = run("walls", (next, seed) => {
        const scene = randomTree(next);
        const shape = randomAreas(next);
        const eavesM = 2 + next() * 10;
        const bottomM = next() < 0.2 ? eavesM * next() * 0.8 : 0;
        const found = now(
          search([scene.given], { buildings: building(shape, eavesM, bottomM) }).conflicts,
          "building-side",
        );
        if (isIn(shape, ...scene.foot)) return expectNone(seed, found);
        return judgeWall(seed, scene, shape, found, [bottomM > 0 ? bottomM : Number.NEGATIVE_INFINITY, eavesM]);
      });
      expectEnough(tally);
    },
    TIMEOUT_MS,
  );
});

type Verdict = keyof Tally;

function run(name: string, judge: (next: () => number, seed: number) => Verdict): Tally {
  const tally: Tally = { yes: 0, no: 0, hair: 0 };
  const offset = [...name].reduce((sum, letter) => sum + letter.charCodeAt(0), 0) * 100_000;
  for (let seed = 1; seed <= SCENES; seed += 1) tally[judge(seeded(offset + seed), seed)] += 1;
  if (process.env.SCENES !== undefined) console.log(`${name}: ${JSON.stringify(tally)}`);
  return tally;
}

/** Enough of both answers to mean something, and next to no scene left undecided. */
function expectEnough({ yes, no, hair }: Tally): void {
  expect(yes).toBeGreaterThan(SCENES * 0.1);
  expect(no).toBeGreaterThan(SCENES * 0.1);
  expect(hair).toBeLessThan(SCENES * 0.03);
}

/** Foliage over the thing between two heights: whether there is any, and how high above `fromM` the lowest of the crown over it hangs. */
function judgeUnderside(
  seed: number,
  { solid, axis }: SceneTree,
  shape: PlanShape,
  found: Conflict | null,
  [lowM, highM]: readonly [number, number],
  fromM: number,
): Verdict {
  const least = samplesOf(shape, axis).reduce(
    (best, [x, y]) => Math.min(best, shareAt(solid, x - axis[0], y - axis[1])),
    Number.POSITIVE_INFINITY,
  );
  const slack = HALF_STEP_M / Math.min(...solid.radii);
  const cap = (CAP_SHARE * shape.halfM) / Math.min(...solid.radii);
  const widest = widestSampled(solid, lowM, highM);
  if (least + cap + ROUNDING < widest) {
    if (found === null) throw new Error(`Scene ${seed}: foliage at a share of ${least} of ${widest}, none found`);
    const lowest = lowestSampled(solid);
    const stepM = (solid.heightM - solid.baseM) / HEIGHT_STEPS;
    const atMostM = lowest(Math.min(widest, least + cap + ROUNDING)) - fromM;
    const atLeastM = lowest(Math.max(0, least - slack)) - stepM - fromM;
    if (!(found.measuredM <= atMostM + ROUNDING && found.measuredM >= atLeastM - ROUNDING))
      throw new Error(`Scene ${seed}: measured ${found.measuredM}, sampled ${atLeastM} to ${atMostM}`);
    return "yes";
  }
  if (least - slack > widest + WIDTH_ERROR) return expectNone(seed, found);
  return "hair";
}

/** Steps of the crown's outline in plan. */
const OUTLINE_STEPS = 720;

/** The horizontal gap between the wall and the crown's widest section beside it. */
function judgeWall(
  seed: number,
  { solid, axis }: SceneTree,
  shape: PlanShape,
  found: Conflict | null,
  [lowM, highM]: readonly [number, number],
): Verdict {
  const minimumM = MINIMUM_M["building-side"]!;
  const widest = widestSampled(solid, lowM, highM);
  if (widest < 0) return expectNone(seed, found);
  const outline = outlineOf(solid, axis, widest);
  const inside = outline.filter(([x, y]) => isIn(shape, x, y));
  const isCrossed =
    inside.length > 0 ||
    isIn(shape, ...axis) ||
    samplesOf(shape, axis).some(([x, y]) => shareAt(solid, x - axis[0], y - axis[1]) < widest - 0.002);
  const mostM = Math.max(...solid.radii);
  // Half a step of the outline of 720 points, and the 0.034 % of the radius by which the engine's outline of 120 corners may lie inside.
  const toleranceM = (Math.PI * mostM) / OUTLINE_STEPS + 0.00035 * mostM + ROUNDING;
  const gapM = isCrossed
    ? 0
    : outline.reduce((least, [x, y]) => Math.min(least, toBoundary(shape, x, y)), Number.POSITIVE_INFINITY);
  if (gapM - toleranceM > minimumM) return expectNone(seed, found);
  if (gapM + toleranceM > minimumM) return "hair";
  if (found === null) throw new Error(`Scene ${seed}: a gap of ${gapM} and none found`);
  const isRound = solid.radii.every((radius) => radius === mostM);
  const toAxisM = toBoundary(shape, ...axis) * (isIn(shape, ...axis) ? -1 : 1);
  if (isRound) near(seed, found.measuredM, toAxisM - widest * mostM, 2 * WIDTH_ERROR * mostM + ROUNDING);
  else if (!isCrossed) near(seed, found.measuredM, gapM, toleranceM);
  else if (found.measuredM > toleranceM) throw new Error(`Scene ${seed}: crossed, measured ${found.measuredM}`);
  else if (toAxisM > 0 && inside.length > 0) {
    // How deep the outline passes is looked for at its 120 corners, half of whose spacing may be missed.
    const deepestM = inside.reduce((most, [x, y]) => Math.max(most, toBoundary(shape, x, y)), 0);
    near(seed, found.measuredM, -deepestM, (Math.PI * mostM) / 120 + toleranceM);
  }
  return "yes";
}

const near = (seed: number, measuredM: number, sampledM: number, toleranceM: number): void => {
  if (!(Math.abs(measuredM - sampledM) <= toleranceM))
    throw new Error(`Scene ${seed}: measured ${measuredM}, sampled ${sampledM}, more than ${toleranceM} apart`);
};

/** Points of the outline at a share of the radii: of a circle, stretched in each quadrant. */
function outlineOf(solid: Solid, [x, y]: readonly [number, number], share: number): [number, number][] {
  return Array.from({ length: OUTLINE_STEPS }, (_, step) => {
    const [east, north] = outlineAt(solid, (step * 2 * Math.PI) / OUTLINE_STEPS);
    return [x + share * east, y + share * north];
  });
}

function expectNone(seed: number, found: Conflict | null): Verdict {
  if (found !== null) throw new Error(`Scene ${seed}: nothing sampled, but ${found.kind} measured ${found.measuredM}`);
  return "no";
}

/** The conflict of a kind that is one today at the estimate. Scenes have no growth: one to come is dated to the horizon. */
const now = (conflicts: readonly Conflict[], kind: ConflictKind): Conflict | null =>
  conflicts.find((conflict) => conflict.kind === kind && conflict.reachedOn === OPTIONS.asOf) ?? null;

const geometryOf = ({ polygons, line: points }: PlanShape): Geometry =>
  points.length > 0
    ? line(points)
    : polygons.length === 1
      ? { type: "Polygon", coordinates: polygons[0]!.map((one) => ring(one)) }
      : { type: "MultiPolygon", coordinates: polygons.map((rings) => rings.map((one) => ring(one))) };

function wayLayers(shape: PlanShape, kind: "roadway" | "walkway"): Layers {
  const layer = kind === "roadway" ? "roads" : "paths";
  const width = shape.line.length > 0 ? { width: 2 * shape.halfM } : {};
  const properties = { class: kind === "roadway" ? "local" : "sidewalk", ...width };
  return { [layer]: features(layer, { geometry: geometryOf(shape), properties }) };
}

const building = (shape: PlanShape, heightM: number, bottomM = 0): ReturnType<typeof features> =>
  features("buildings", {
    geometry: geometryOf(shape),
    properties: { height: heightM, ...(bottomM > 0 ? { min_height: bottomM } : {}) },
  });

/** The search with the shape as an area of sight of the standard's window, in place of the road it was read as. */
function searchSight(scene: SceneTree, shape: PlanShape): readonly Conflict[] {
  const { surroundings } = search([], wayLayers(shape, "roadway")).around;
  const area = {
    id: "s",
    kind: "sight-triangle",
    movement: "left-turn",
    windowLowM: WINDOW_M[0],
    windowHighM: WINDOW_M[1],
    ruleId: "none",
    doubt: null,
    ring: [],
  };
  const envelope = { type: "sight", withLayer: "sight", withId: "s", withName: null, area };
  const sight = { ...surroundings, envelopes: [envelope] } as unknown as Surroundings;
  return findConflicts(treeTable([tree(scene.given)]), sight, STANDARD, OPTIONS, new Map()).conflicts;
}
