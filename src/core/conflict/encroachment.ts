import type { Polygon, Position } from "geojson";
import { RAY_COUNT, type RemovalRegion } from "../model/conflict.ts";
import { lonLatAround } from "../plane/plane.ts";
import { type CrownSize, radiusAlong } from "./crown-size.ts";
import { rayEast, rayNorth } from "./removal-region.ts";

/**
 * The part of a crown in plan that lies in a region, out to `share` of its radius, as a polygon in longitude and latitude wound
 * counterclockwise; null when there is none. Where the region meets the crown in several places the largest is answered.
 */
export function encroachmentOf(
  region: RemovalRegion,
  size: CrownSize,
  share: number,
  plane: number,
  xM: number,
  yM: number,
): Polygon | null {
  const nearM = new Float64Array(RAY_COUNT);
  const farM = new Float64Array(RAY_COUNT);
  let rays = 0;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    nearM[ray] = region.fromM[ray]!;
    farM[ray] = Math.min(region.toM[ray]!, share * radiusAlong(size, rayEast(ray), rayNorth(ray)));
    if (farM[ray]! > nearM[ray]!) rays += 1;
  }
  if (rays === 0) return null;
  const lonLat = lonLatAround(plane, xM, yM);
  const point = (ray: number, distanceM: number): Position =>
    lonLat(rayEast(ray % RAY_COUNT) * distanceM, rayNorth(ray % RAY_COUNT) * distanceM);
  if (rays === RAY_COUNT) {
    const ring = Array.from({ length: RAY_COUNT }, (_, at) => point(RAY_COUNT - 1 - at, farM[RAY_COUNT - 1 - at]!));
    return { type: "Polygon", coordinates: [[...ring, ring[0]!]] };
  }
  const [first, count] = largestRun(nearM, farM);
  const ring: Position[] = [];
  for (let step = 0; step < count; step += 1) ring.push(point(first + step, nearM[(first + step) % RAY_COUNT]!));
  for (let step = count - 1; step >= 0; step -= 1) ring.push(point(first + step, farM[(first + step) % RAY_COUNT]!));
  if (count === 1) {
    // A sliver on one ray is widened to the ray's sector, so that it is an area.
    return { type: "Polygon", coordinates: [sector(first, nearM[first]!, farM[first]!, lonLat)] };
  }
  return { type: "Polygon", coordinates: [[...ring, ring[0]!]] };
}

function sector(ray: number, nearM: number, farM: number, lonLat: (dxM: number, dyM: number) => Position): Position[] {
  const half = Math.PI / RAY_COUNT;
  const middle = Math.atan2(rayEast(ray), rayNorth(ray));
  const corner = (bearing: number, distanceM: number): Position =>
    lonLat(Math.sin(bearing) * distanceM, Math.cos(bearing) * distanceM);
  const first = corner(middle - half, nearM);
  return [first, corner(middle + half, nearM), corner(middle + half, farM), corner(middle - half, farM), first];
}

/** First ray and number of rays of the largest unbroken part, by its area in plan. */
function largestRun(nearM: Float64Array, farM: Float64Array): [first: number, count: number] {
  let best: [number, number] = [0, 0];
  let bestArea = -1;
  for (let start = 0; start < RAY_COUNT; start += 1) {
    const before = (start + RAY_COUNT - 1) % RAY_COUNT;
    if (!(farM[start]! > nearM[start]!) || farM[before]! > nearM[before]!) continue;
    let area = 0;
    let count = 0;
    for (let ray = start; count < RAY_COUNT && farM[ray]! > nearM[ray]!; ray = (ray + 1) % RAY_COUNT) {
      area += farM[ray]! ** 2 - nearM[ray]! ** 2;
      count += 1;
    }
    if (area > bestArea) {
      best = [start, count];
      bestArea = area;
    }
  }
  return best;
}
