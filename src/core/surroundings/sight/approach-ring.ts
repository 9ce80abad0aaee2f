import type { PlanePoint } from "./plane-point.ts";
import { pointAlong } from "./point-along.ts";
import { walkFromFoot } from "./walk-from-foot.ts";

/** Lanes nearer to parallel than this sine do not cross near the intersection. */
const MIN_SINE = 0.3;

/**
 * An approach triangle: from the driver's eye, `ownM` back along its lane, to the crossing of the two lanes, and `seenM` along the other lane.
 * Corners with the eye first; null where the lanes do not cross near the intersection. Where the driver's own road ends in the data before that
 * length, it is taken to go on straight.
 */
export function approachRing(
  own: readonly PlanePoint[],
  ownM: number,
  seen: readonly PlanePoint[],
  seenM: number,
): { corners: PlanePoint[]; lane: PlanePoint[]; coveredM: number } | null {
  const crossing = crossingOf(own, seen);
  if (crossing === null) return null;
  const back = walkFromFoot(own, crossing, ownM);
  const along = walkFromFoot(seen, crossing, seenM);
  const eye = back.lengthM < ownM ? pointAlong([crossing, back.points[back.points.length - 1]!], ownM) : undefined;
  const corners = [...back.points].reverse();
  if (eye !== undefined) corners.unshift(eye);
  return { corners: [...corners, ...along.points.slice(1)], lane: along.points, coveredM: along.lengthM };
}

/** Where two lanes cross, each taken as straight near the intersection. */
function crossingOf(own: readonly PlanePoint[], seen: readonly PlanePoint[]): PlanePoint | null {
  const [[ax, ay], [bx, by]] = [own[0]!, own[1]!];
  const [[cx, cy], [dx, dy]] = [seen[0]!, seen[1]!];
  const [ux, uy, vx, vy] = [bx - ax, by - ay, dx - cx, dy - cy];
  const cross = ux * vy - uy * vx;
  if (Math.abs(cross) < MIN_SINE * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const share = ((cx - ax) * vy - (cy - ay) * vx) / cross;
  return [ax + share * ux, ay + share * uy];
}
