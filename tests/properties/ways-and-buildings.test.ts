import fc from "fast-check";
import type { Geometry } from "geojson";
import { describe, expect, it } from "vitest";
import type { Conflict } from "../../src/core/model/conflict.ts";
import { RAY_STEP_DEG } from "../../src/core/model/conflict.ts";
import { HABITS } from "../../src/core/model/terms.ts";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import type { Standard } from "../../src/core/standard/standard.ts";
import {
  features,
  type Layers,
  line,
  OPTIONS,
  ORIGIN,
  type Points,
  polygon,
  ring,
  STANDARD,
  search,
  type TreeGiven,
} from "../core/conflict/scene.ts";

// One tree among a street by its center with whatever its record says, a surveyed road, and a building: with a courtyard, of two parts, on
// the ground. Canopies are left out where a crown is lowered: it may come to hang under one.
interface Scene {
  readonly tree: TreeGiven;
  readonly streetAtM: number;
  readonly street: Readonly<Record<string, unknown>>;
  readonly surveyedAtM: number;
  readonly buildingAtM: number;
  readonly buildingM: number;
  readonly shape: "block" | "courtyard" | "parts";
  readonly bearingsDeg: readonly [number, number, number];
}

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
const bearing = fc.integer({ min: 0, max: 359 });
const trees: fc.Arbitrary<TreeGiven> = fc
  .record({
    heightM: between(3, 25),
    baseShare: between(0, 0.6),
    radiusM: between(1, 8),
    quarters: fc.tuple(between(0.6, 1.4), between(0.6, 1.4), between(0.6, 1.4), between(0.6, 1.4)),
    isRound: fc.boolean(),
    habit: fc.constantFrom(...HABITS),
    basis: fc.constantFrom("measured" as const, "estimated" as const),
    error: between(0.01, 0.3),
  })
  .map(({ baseShare, quarters, isRound, ...same }) => ({
    ...same,
    baseM: same.heightM * baseShare,
    radiusGrowthM: 0.05,
    heightGrowthM: 0.2,
    ...(isRound ? {} : { radii: radiiOf(same.radiusM, quarters) }),
  }));
const scenes: fc.Arbitrary<Scene> = fc.record({
  tree: trees,
  streetAtM: between(2, 14),
  street: fc.record({
    highway: fc.constantFrom("residential", "tertiary", "service", "primary"),
    lanes: fc.constantFrom(undefined, 1, 2, 4),
    width: fc.constantFrom(undefined, undefined, 8),
    oneway: fc.constantFrom("no", "yes", "-1"),
    "parking:both": fc.constantFrom(undefined, "no", "lane", "street_side"),
    shoulder: fc.constantFrom(undefined, "both", "left"),
    sidewalk: fc.constantFrom(undefined, "both", "left"),
    cycleway: fc.constantFrom(undefined, "lane", "track"),
  }),
  surveyedAtM: between(-1, 10),
  buildingAtM: between(-0.5, 9),
  buildingM: between(2, 15),
  shape: fc.constantFrom("block", "courtyard", "parts"),
  bearingsDeg: fc.tuple(bearing, bearing, bearing),
});

function radiiOf(radiusM: number, [north, east, south, west]: readonly [number, number, number, number]) {
  return { northM: radiusM * north, eastM: radiusM * east, southM: radiusM * south, westM: radiusM * west };
}

function toward(bearingDeg: number, points: Points): Points {
  const turn = (bearingDeg * Math.PI) / 180;
  return points.map(([right, ahead]) => [
    right * Math.cos(turn) + ahead * Math.sin(turn),
    ahead * Math.cos(turn) - right * Math.sin(turn),
  ]);
}

const block = (fromM: number, toM: number, halfM: number): Points => [
  [-halfM, fromM],
  [halfM, fromM],
  [halfM, toM],
  [-halfM, toM],
];

function footprint({ shape, buildingAtM: at, bearingsDeg }: Scene): Geometry {
  const turned = (points: Points): Points => toward(bearingsDeg[2], points);
  if (shape === "courtyard") {
    const rings = [block(at, at + 20, 12), [...block(at + 4, at + 16, 8)].reverse()];
    return { type: "Polygon", coordinates: rings.map((points) => ring(turned(points))) };
  }
  if (shape === "parts") {
    const parts = [block(at, at + 3, 2), block(at + 4, at + 9, 7)];
    return { type: "MultiPolygon", coordinates: parts.map((points) => [ring(turned(points))]) };
  }
  return polygon(turned(block(at, at + 12, 9)));
}

function layersOf(scene: Scene): Layers {
  const [street, surveyed] = scene.bearingsDeg;
  const center: Points = [
    [-40, scene.streetAtM],
    [40, scene.streetAtM],
  ];
  return {
    roads: features(
      "roads",
      { geometry: line(toward(street, center)), properties: { ...scene.street } },
      { geometry: polygon(toward(surveyed, block(scene.surveyedAtM, scene.surveyedAtM + 8, 40))) },
    ),
    buildings: features("buildings", { geometry: footprint(scene), properties: { height: scene.buildingM } }),
  };
}

const RUNS = { seed: 4, numRuns: 200 };
const isNow = ({ reachedOn, certainty }: Conflict): boolean => reachedOn === OPTIONS.asOf && certainty !== "possible";
/** A building is one thing: what its wall loses to its roof it has not lost. */
const things = (conflicts: readonly Conflict[]): string[] =>
  conflicts.map(({ kind, withId }) => `${kind.startsWith("building") ? "building" : kind} ${withId}`);
const thingsNow = (conflicts: readonly Conflict[]): string[] => things(conflicts.filter(isNow));

function neverLoses(before: readonly Conflict[], after: readonly Conflict[]): void {
  expect(thingsNow(after)).toEqual(expect.arrayContaining(thingsNow(before)));
  expect(things(after)).toEqual(expect.arrayContaining(things(before)));
}

describe("among ways and buildings", () => {
  it("a wider crown never loses a conflict", () => {
    fc.assert(
      fc.property(scenes, between(1.001, 1.6), (scene, factor) => {
        const layers = layersOf(scene);
        const { tree } = scene;
        const { radii } = tree;
        const wider = {
          ...tree,
          radiusM: tree.radiusM * factor,
          ...(radii === undefined
            ? {}
            : { radii: radiiOf(factor, [radii.northM, radii.eastM, radii.southM, radii.westM]) }),
        };
        neverLoses(search([tree], layers).conflicts, search([wider], layers).conflicts);
      }),
      RUNS,
    );
  });

  it("a lower crown base never loses a conflict", () => {
    fc.assert(
      fc.property(scenes, between(0, 1), (scene, share) => {
        const layers = layersOf(scene);
        const lower = { ...scene.tree, baseM: scene.tree.baseM * share };
        neverLoses(search([scene.tree], layers).conflicts, search([lower], layers).conflicts);
      }),
      RUNS,
    );
  });

  it("a larger minimum never loses a conflict", () => {
    fc.assert(
      fc.property(scenes, between(0.01, 2), (scene, moreM) => {
        const layers = layersOf(scene);
        const rules = STANDARD.rules.map((rule) => ({
          ...rule,
          minimumM: rule.minimumM + moreM,
          clearToM: rule.clearToM + moreM,
        }));
        const stricter: Standard = { ...STANDARD, rules };
        neverLoses(search([scene.tree], layers).conflicts, search([scene.tree], layers, stricter).conflicts);
      }),
      RUNS,
    );
  });

  it("a way kept wider never loses a conflict", () => {
    fc.assert(
      fc.property(scenes, between(1.01, 2), (scene, factor) => {
        const { ways, widths } = STANDARD;
        const { parallel } = ways.parking;
        const wider: Standard = {
          ...STANDARD,
          widths: Object.fromEntries(
            Object.entries(widths).map(([name, { typicalM, maxM, laneM, ...same }]) => [
              name,
              { ...same, typicalM: typicalM * factor, maxM: maxM * factor, laneM: laneM * factor },
            ]),
          ) as Standard["widths"],
          ways: {
            ...ways,
            laneMaxM: ways.laneMaxM * factor,
            parking: {
              ...ways.parking,
              parallel: { ...parallel, typicalM: parallel.typicalM * factor, maxM: parallel.maxM * factor },
            },
          },
        };
        const layers = layersOf({ ...scene, street: { ...scene.street, sidewalk: undefined, cycleway: undefined } });
        const onStreet = (conflicts: readonly Conflict[]): Conflict[] =>
          conflicts.filter(({ kind }) => kind === "roadway");
        // A trunk that comes to stand in the way makes its width doubtful, so only that there is a conflict is compared.
        expect(things(onStreet(search([scene.tree], layers, wider).conflicts))).toEqual(
          expect.arrayContaining(things(onStreet(search([scene.tree], layers).conflicts))),
        );
      }),
      RUNS,
    );
  });

  it("what is to be removed never crosses the trunk, nor lies behind it at a wall", () => {
    fc.assert(
      fc.property(scenes, (scene) => {
        for (const { kind, region, bearingDeg } of search([scene.tree], layersOf(scene)).conflicts) {
          const depthsM = [...region.fromM].map((fromM, ray) => (fromM < Infinity ? region.toM[ray]! - fromM : 1));
          expect(Math.min(...region.fromM)).toBeGreaterThanOrEqual(0.1);
          expect(Math.min(...depthsM)).toBeGreaterThan(0);
          if (kind !== "building-side" || scene.shape !== "block") continue;
          const behind = Math.floor(((bearingDeg + 180) % 360) / RAY_STEP_DEG);
          expect(region.fromM[behind]).toBe(Number.POSITIVE_INFINITY);
        }
      }),
      RUNS,
    );
  });

  it("the nearest points are as far apart as the measure says", () => {
    const plane = planeOf(ORIGIN.lonDeg);
    fc.assert(
      fc.property(scenes, (scene) => {
        for (const conflict of search([scene.tree], layersOf(scene)).conflicts.filter(isNow)) {
          const { thing, crown } = conflict.nearest!;
          const [from, to] = [toPlane(plane, thing.lonDeg, thing.latDeg), toPlane(plane, crown.lonDeg, crown.latDeg)];
          const asideM = Math.hypot(to[0] - from[0], to[1] - from[1]);
          // Millimeters: planes promise no more.
          if (conflict.kind === "building-side") {
            expect(Math.abs(asideM - Math.abs(conflict.measuredM))).toBeLessThan(0.002);
            expect(thing.heightM).toBeLessThanOrEqual(scene.buildingM);
          } else {
            expect(asideM).toBeLessThan(0.002);
            expect(Math.abs(crown.heightM - thing.heightM - conflict.measuredM)).toBeLessThan(0.002);
          }
        }
      }),
      RUNS,
    );
  });
});
