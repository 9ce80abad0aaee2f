import type { Neighborhood } from "../plane/neighborhood.ts";
import { nearestShare } from "../plane/segments.ts";
import { type CrownSize, isRound, widestM } from "./crown-size.ts";

/**
 * Smallest share of the crown radius at which the loaded thing begins: 0 when the trunk is in it, 1 at the crown's edge, above 1 outside.
 * An area begins at its boundary, a line `halfWidthM` beside it.
 *
 * Exact for areas, and for lines under a round crown; under unequal radii the round ends of a widened line are polygons of 16 sides. A thing
 * out of reach of the widest radius is answered by that radius. Segments beyond the widest radius and the half width need not be loaded. The
 * point where it begins is written into `begin`, meters from the trunk.
 */
export function nearestInCrown(
  around: Neighborhood,
  halfWidthM: number,
  size: CrownSize,
  begin: { xM: number; yM: number } | null = null,
): number {
  if (begin !== null) begin.xM = begin.yM = 0;
  if (around.isInside) return 0;
  const { nearest } = around;
  const freeM = nearest.distanceM - halfWidthM;
  if (freeM <= 0 && halfWidthM > 0) return 0;
  const reachM = widestM(size);
  if (isRound(size) || freeM >= reachM) {
    if (begin !== null && nearest.distanceM > 0 && freeM < Number.POSITIVE_INFINITY) {
      begin.xM = (nearest.xM * freeM) / nearest.distanceM;
      begin.yM = (nearest.yM * freeM) / nearest.distanceM;
    }
    return reachM > 0 ? freeM / reachM : Number.POSITIVE_INFINITY;
  }
  const found: Found = { squared: Number.POSITIVE_INFINITY, xM: 0, yM: 0 };
  const { segments } = around;
  for (let at = 0; at < 4 * around.segmentCount; at += 4) {
    const ax = segments[at]!;
    const ay = segments[at + 1]!;
    const bx = segments[at + 2]!;
    const by = segments[at + 3]!;
    if (halfWidthM > 0) widened(found, ax, ay, bx, by, halfWidthM, size);
    else squaredInCrown(found, ax, ay, bx, by, size);
  }
  if (begin !== null) {
    begin.xM = found.xM;
    begin.yM = found.yM;
  }
  return Math.sqrt(found.squared);
}

/** The smallest squared share found so far, and where. */
interface Found {
  squared: number;
  xM: number;
  yM: number;
}

/** Sides of a half circle at the end of a widened line. */
const CAP_SIDES = 16;

function widened(
  found: Found,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  halfWidthM: number,
  size: CrownSize,
): void {
  const along = Math.atan2(by - ay, bx - ax);
  const nx = -Math.sin(along) * halfWidthM;
  const ny = Math.cos(along) * halfWidthM;
  squaredInCrown(found, ax + nx, ay + ny, bx + nx, by + ny, size);
  squaredInCrown(found, ax - nx, ay - ny, bx - nx, by - ny, size);
  for (let side = 0; side < CAP_SIDES; side += 1) {
    const from = along + Math.PI / 2 + (Math.PI * side) / CAP_SIDES;
    const to = from + Math.PI / CAP_SIDES;
    const fx = Math.cos(from) * halfWidthM;
    const fy = Math.sin(from) * halfWidthM;
    const tx = Math.cos(to) * halfWidthM;
    const ty = Math.sin(to) * halfWidthM;
    squaredInCrown(found, ax + fx, ay + fy, ax + tx, ay + ty, size);
    squaredInCrown(found, bx - fx, by - fy, bx - tx, by - ty, size);
  }
}

/** Smallest squared share along a segment: cut at the axes, each piece measured in its quadrant, scaled so that the crown is a circle. */
function squaredInCrown(found: Found, ax: number, ay: number, bx: number, by: number, size: CrownSize): void {
  const dx = bx - ax;
  const dy = by - ay;
  const atX = dx === 0 ? 2 : -ax / dx;
  const atY = dy === 0 ? 2 : -ay / dy;
  const first = Math.min(atX, atY);
  const second = Math.max(atX, atY);
  let from = 0;
  for (let cut = 0; cut < 3; cut += 1) {
    const end = cut === 0 ? first : cut === 1 ? second : 1;
    const to = Math.min(1, end);
    if (to < from || (to === from && from > 0)) continue;
    const middle = (from + to) / 2;
    const alongEastM = ax + middle * dx >= 0 ? size.eastM : size.westM;
    const alongNorthM = ay + middle * dy >= 0 ? size.northM : size.southM;
    if (alongEastM > 0 && alongNorthM > 0) {
      const fx = (ax + from * dx) / alongEastM;
      const fy = (ay + from * dy) / alongNorthM;
      const tx = (ax + to * dx) / alongEastM;
      const ty = (ay + to * dy) / alongNorthM;
      const share = nearestShare(0, 0, fx, fy, tx, ty);
      const x = fx + share * (tx - fx);
      const y = fy + share * (ty - fy);
      const squared = x * x + y * y;
      if (squared < found.squared) {
        found.squared = squared;
        found.xM = x * alongEastM;
        found.yM = y * alongNorthM;
      }
    }
    from = to;
  }
}
