import type { Position } from "geojson";
import type { SurroundingFeature } from "../../../core/model/surroundings.ts";
import { offsetLonLat } from "../ground-scale.ts";
import { outlines, strip } from "./around-solids.ts";
import { type Solid, solid } from "./solid.ts";

/** A clearance is drawn as a pane of this thickness at its distance. */
const PANE_M = 0.06;
/** Panes run on beyond a corner by at most this many clearances: those of an acute one would meet far out. */
const LONGEST_MITER = 2;

/** Least free distances in meters about a building that some tree is in conflict with; null where none is. */
export interface BuildingMinimum {
  readonly sideM: number | null;
  readonly roofM: number | null;
}

/**
 * The least distances that must be free beside a building's walls and over its roof, as panes: upright ones at that distance along each wall, up
 * to the building's height, and a level one over the roof. None where its height is not known.
 */
export function buildingPanes({ geometry, heightM }: SurroundingFeature, { sideM, roofM }: BuildingMinimum): Solid[] {
  if (heightM === null) return [];
  return outlines(geometry).flatMap((ring) => [
    ...(sideM === null ? [] : wallPanes(ring, sideM, heightM)),
    ...(roofM === null ? [] : [solid("clearance", ring, heightM + roofM - PANE_M, heightM + roofM)]),
  ]);
}

function wallPanes(ring: readonly Position[], sideM: number, topM: number): Solid[] {
  const [lonDeg = 0, latDeg = 0] = ring[0] ?? [];
  const [perEast, perNorth] = offsetLonLat(0, latDeg, 1, 1);
  const corners = ring.map(
    ([lon = 0, lat = 0]): Corner => [(lon - lonDeg) / perEast, (lat - latDeg) / (perNorth - latDeg)],
  );
  const moved = outward(distinct(corners), sideM);
  return moved.flatMap(([from, to]) =>
    Math.hypot(to[0] - from[0], to[1] - from[1]) < PANE_M
      ? []
      : [
          solid(
            "clearance",
            strip(offsetLonLat(lonDeg, latDeg, ...from), offsetLonLat(lonDeg, latDeg, ...to), PANE_M / 2, 0),
            0,
            topM,
          ),
        ],
  );
}

type Corner = readonly [eastM: number, northM: number];

/** The walls of an outline in meters moved outward, each cut where it meets the next; those that a hollow corner swallows are left out. */
function outward(corners: readonly Corner[], byM: number): (readonly [Corner, Corner])[] {
  const count = corners.length;
  if (count < 3) return [];
  const side = Math.sign(doubleArea(corners));
  const walls = corners.map((from, at) => {
    const to = corners[(at + 1) % count]!;
    const lengthM = Math.hypot(to[0] - from[0], to[1] - from[1]);
    return { from, lengthM, east: (to[0] - from[0]) / lengthM, north: (to[1] - from[1]) / lengthM };
  });
  // Two walls moved outward by d meet d * tan(turn / 2) beyond a corner; at a hollow one as far before it.
  const beyondM = walls.map(({ east, north }, at) => {
    const { east: east0, north: north0 } = walls[(at + count - 1) % count]!;
    const tangent = (side * (east0 * north - north0 * east)) / (1 + east0 * east + north0 * north);
    return byM * Math.min(LONGEST_MITER, Number.isFinite(tangent) ? tangent : LONGEST_MITER);
  });
  return walls.flatMap(({ from, lengthM, east, north }, at) => {
    const [beforeM, afterM] = [beyondM[at]!, lengthM + beyondM[(at + 1) % count]!];
    if (afterM + beforeM <= 0) return [];
    const place = (alongM: number): Corner => [
      from[0] + east * alongM + side * north * byM,
      from[1] + north * alongM - side * east * byM,
    ];
    return [[place(-beforeM), place(afterM)] as const];
  });
}

const distinct = (corners: readonly Corner[]): Corner[] =>
  corners.filter(([east, north], at) => {
    const [east0, north0] = corners[(at + corners.length - 1) % corners.length]!;
    return Math.hypot(east - east0, north - north0) > 0.01;
  });

/** Twice the signed area, positive counterclockwise. */
const doubleArea = (corners: readonly Corner[]): number =>
  corners.reduce((sum, [east, north], at) => {
    const [nextEast, nextNorth] = corners[(at + 1) % corners.length]!;
    return sum + east * nextNorth - nextEast * north;
  }, 0);
