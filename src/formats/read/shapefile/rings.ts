import type { MultiPolygon, Polygon, Position } from "geojson";
import { GeometryError } from "../geometry/geometry-fault.ts";

/** Vertices that may be visited to place the holes of one shape; a shape past it is set aside. Our policy, about a second's work. */
const MAX_VISITS = 50_000_000;

interface Ring {
  readonly positions: Position[];
  readonly area: number;
  readonly box: readonly [number, number, number, number];
}

/**
 * A polygon or multipolygon of a shape's rings: clockwise rings are outer ones, each other is a hole of the smallest outer ring around
 * it (ESRI Shapefile Technical Description, page 8). A hole that lies in none is an outer ring drawn the wrong way round. Rings are
 * closed where the file left them open; their direction is kept.
 */
export function polygonOfRings(parts: readonly Position[][]): Polygon | MultiPolygon {
  const rings = parts.map((positions): Ring => {
    const closed = closeRing(positions);
    return { positions: closed, area: signedArea(closed), box: boxOf(closed) };
  });
  if (rings.length === 1) return { type: "Polygon", coordinates: [rings[0]!.positions] };
  const outers = rings.filter(({ area }) => area <= 0);
  if (outers.length === 1) {
    const holes = rings.filter((ring) => ring !== outers[0]);
    return { type: "Polygon", coordinates: [outers[0]!.positions, ...holes.map(({ positions }) => positions)] };
  }
  const bySize = outers.slice().sort((one, other) => Math.abs(one.area) - Math.abs(other.area));
  const polygons = new Map<Ring, Position[][]>(outers.map((ring) => [ring, [ring.positions]]));
  let visits = 0;
  for (const ring of rings) {
    if (polygons.has(ring)) continue;
    const around = bySize.find((outer) => {
      visits += 1;
      if (!isBoxIn(ring.box, outer.box)) return false;
      visits += outer.positions.length;
      if (visits > MAX_VISITS) throw new GeometryError("The shape has too many rings to tell its holes apart.");
      return isIn(ring, outer);
    });
    if (around === undefined) polygons.set(ring, [ring.positions]);
    else polygons.get(around)!.push(ring.positions);
  }
  const coordinates = rings.flatMap((ring) => (polygons.has(ring) ? [polygons.get(ring)!] : []));
  return coordinates.length === 1
    ? { type: "Polygon", coordinates: coordinates[0]! }
    : { type: "MultiPolygon", coordinates };
}

function closeRing(positions: Position[]): Position[] {
  const [first, last] = [positions[0]!, positions.at(-1)!];
  return first[0] === last[0] && first[1] === last[1] ? positions : [...positions, first];
}

/** Positive for counterclockwise rings (shoelace formula), relative to the first position so that large coordinates do not cancel. */
function signedArea(ring: readonly Position[]): number {
  const [x0, y0] = ring[0] as [number, number];
  let twice = 0;
  for (let at = 1; at < ring.length; at += 1) {
    const [ax, ay] = ring[at - 1] as [number, number];
    const [bx, by] = ring[at] as [number, number];
    twice += (ax - x0) * (by - y0) - (bx - x0) * (ay - y0);
  }
  return twice / 2;
}

function boxOf(ring: readonly Position[]): [number, number, number, number] {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of ring as readonly [number, number][]) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return [minX, minY, maxX, maxY];
}

const isBoxIn = (inner: Ring["box"], outer: Ring["box"]): boolean =>
  inner[0] >= outer[0] && inner[1] >= outer[1] && inner[2] <= outer[2] && inner[3] <= outer[3];

/** Whether the middle of a hole's first edge lies in an outer ring; a vertex may touch it, an edge's middle rarely does. */
function isIn(hole: Ring, outer: Ring): boolean {
  const [a, b] = [hole.positions[0]!, hole.positions[1] ?? hole.positions[0]!];
  const [x, y] = [(a[0]! + b[0]!) / 2, (a[1]! + b[1]!) / 2];
  let isInside = false;
  const ring = outer.positions;
  for (let at = 1; at < ring.length; at += 1) {
    const [ax, ay] = ring[at - 1] as [number, number];
    const [bx, by] = ring[at] as [number, number];
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) isInside = !isInside;
  }
  return isInside;
}
