import { nearestShare } from "../../plane/segments.ts";
import type { PlanePoint } from "./plane-point.ts";
import { pointAlong } from "./point-along.ts";

/** How far before its first point and along it a lane is searched for the foot, meters: on skewed roads it lies beyond the node. */
const SEARCH_M = 30;

/**
 * Points of a lane from the point nearest to the eye on for `legM` meters, or to the lane's end, and their length. The lane starts at the
 * intersection and is followed around its curves; before its first point it goes on straight.
 */
export function walkFromFoot(
  lane: readonly PlanePoint[],
  [ex, ey]: PlanePoint,
  legM: number,
): { points: PlanePoint[]; lengthM: number } {
  const [first, second] = [lane[0]!, lane[1]!];
  const back = pointAlong([second, first], Math.hypot(second[0] - first[0], second[1] - first[1]) + SEARCH_M);
  const line: PlanePoint[] = [back, ...lane.slice(1)];
  let foot = line[0]!;
  let after = 1;
  let least = Number.POSITIVE_INFINITY;
  let searchedM = 0;
  for (let at = 0; at + 1 < line.length && searchedM < 2 * SEARCH_M; at += 1) {
    const [ax, ay] = line[at]!;
    const [bx, by] = line[at + 1]!;
    const share = nearestShare(ex, ey, ax, ay, bx, by);
    const [x, y] = [ax + share * (bx - ax), ay + share * (by - ay)];
    const awayM = Math.hypot(x - ex, y - ey);
    searchedM += Math.hypot(bx - ax, by - ay);
    if (awayM >= least) continue;
    least = awayM;
    foot = [x, y];
    after = at + 1;
  }
  const points: PlanePoint[] = [foot];
  let doneM = 0;
  for (const next of line.slice(after)) {
    const from = points[points.length - 1]!;
    const stepM = Math.hypot(next[0] - from[0], next[1] - from[1]);
    if (doneM + stepM >= legM) {
      points.push(pointAlong([from, next], legM - doneM));
      return { points, lengthM: legM };
    }
    if (stepM > 0) points.push(next);
    doneM += stepM;
  }
  return { points, lengthM: doneM };
}
