import type { SightArea } from "../../../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../../../src/core/plane/plane.ts";
import { resolveStandard } from "../../../../src/core/standard/resolve-standard.ts";
import type { Standard } from "../../../../src/core/standard/standard.ts";
import { buildSurroundings } from "../../../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS, ORIGIN, type Points, point, STANDARD } from "../../conflict/scene.ts";

export const FT = 0.3048;

/** A road of a scene in meters from the origin; its own members over these: a collector of two 11 ft lanes at 30 mph. */
export interface RoadGiven {
  readonly at: Points;
  readonly is?: Record<string, unknown>;
}

export interface SignGiven {
  readonly at: readonly [number, number];
  readonly is?: Record<string, unknown>;
}

const COLLECTOR = { class: "collector", speed: "30 mph", lanes: 2, width: "22 ft" };

/** Everything built around some roads, signs and signals. */
export function sightScene(
  roads: readonly RoadGiven[],
  signs: readonly SignGiven[] | null = null,
  signals: readonly SignGiven[] | null = null,
  standard: Standard = STANDARD,
  drive: "right" | "left" = "right",
): ReturnType<typeof buildSurroundings> {
  const pointsOf = (layer: "signs" | "signals", given: readonly SignGiven[]) =>
    features(layer, ...given.map(({ at, is }) => ({ geometry: point(...at), properties: is ?? {} })));
  const built = buildSurroundings(
    {
      roads: features(
        "roads",
        ...roads.map(({ at, is }) => ({ geometry: line(at), properties: { ...COLLECTOR, ...is } })),
      ),
      ...(signs === null ? {} : { signs: pointsOf("signs", signs) }),
      ...(signals === null ? {} : { signals: pointsOf("signals", signals) }),
    },
    {},
    standard,
    { ...OPTIONS, drive },
  );
  return withTriangles(built);
}

/** The same with the triangles alone of all areas of sight: curves and faces have tests of their own. */
export function withTriangles(built: ReturnType<typeof buildSurroundings>): ReturnType<typeof buildSurroundings> {
  const sight = built.surroundings.sight.filter(({ kind }) => kind === "sight-triangle");
  return { ...built, surroundings: { ...built.surroundings, sight } };
}

/** The common standard with other figures for sight. */
export function standardWith(sight: Record<string, unknown>): Standard {
  const resolved = resolveStandard({ extends: "us-common", title: "test", sight });
  if ("faults" in resolved) throw new Error(resolved.faults.join("; "));
  return resolved.standard;
}

/** Corners of an area in meters from the origin, without the closing one. */
export function cornersOf(area: SightArea): [number, number][] {
  const plane = planeOf(ORIGIN.lonDeg);
  const [originX, originY] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
  return area.ring.slice(0, -1).map(([lonDeg, latDeg]) => {
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    return [x - originX, y - originY];
  });
}

/** What is compared of areas: movement, side, control and leg in feet. */
export const toldOf = (areas: readonly SightArea[]): string[] =>
  areas.map(
    ({ movement, direction, control, legM }) => `${control} ${movement} ${direction} ${(legM / FT).toFixed(1)}`,
  );

/** An east-west road, and one from the south to the node, or across it. */
export const EAST_WEST: Points = [
  [-400, 0],
  [0, 0],
  [400, 0],
];
export const SOUTH: Points = [
  [0, 0],
  [0, -300],
];
export const NORTH: Points = [
  [0, 0],
  [0, 300],
];
