import type { Position } from "geojson";

/**
 * Whether a place lies inside the rings of a polygon in longitude and latitude, by the even-odd rule; closing positions are optional. Straight in
 * degrees, across the antimeridian the short way. On the very edge either answer.
 */
export function isWithin(
  { lonDeg, latDeg }: { readonly lonDeg: number; readonly latDeg: number },
  rings: readonly (readonly Position[])[],
): boolean {
  let isInside = false;
  for (const ring of rings) {
    for (let at = 0, last = ring.length - 1; at < ring.length; last = at, at += 1) {
      const [fromX, fromY] = [eastOf(lonDeg, ring[last]![0]!), ring[last]![1]! - latDeg];
      const [toX, toY] = [eastOf(lonDeg, ring[at]![0]!), ring[at]![1]! - latDeg];
      if (fromY > 0 === toY > 0) continue;
      if (fromX - (fromY * (toX - fromX)) / (toY - fromY) > 0) isInside = !isInside;
    }
  }
  return isInside;
}

/** Degrees from one longitude east to another, -180 to 180. */
function eastOf(fromDeg: number, toDeg: number): number {
  const deg = toDeg - fromDeg;
  return deg > 180 ? deg - 360 : deg < -180 ? deg + 360 : deg;
}
