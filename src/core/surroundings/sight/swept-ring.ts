import type { PlanePoint } from "./plane-point.ts";

/** Angles nearer than this are one, radians: far less than a millimeter at any leg. */
const SAME_ANGLE = 1e-9;

/**
 * What the sight lines from an eye to all points of a lane sweep: corners with the eye first, then the lane as it is where its bearing from the
 * eye only turns one way, else the farthest of it in every direction. On a road that bends toward the driver's side the far part of the lane is
 * seen across a part that is nearer.
 */
export function sweptRing(eye: PlanePoint, lane: readonly PlanePoint[]): PlanePoint[] {
  const angles = anglesOf(eye, lane);
  const steps = angles.slice(1).map((angle, at) => angle - angles[at]!);
  if (steps.every((step) => step >= 0) || steps.every((step) => step <= 0)) return [eye, ...lane];
  const breaks = [...angles].sort((one, other) => one - other);
  const far: PlanePoint[] = [];
  for (let at = 0; at + 1 < breaks.length; at += 1) {
    const [from, to] = [breaks[at]!, breaks[at + 1]!];
    if (to - from < SAME_ANGLE) continue;
    const middle = (from + to) / 2;
    let best = -1;
    let reachM = 0;
    for (let segment = 0; segment + 1 < lane.length; segment += 1) {
      const [low, high] = [angles[segment]!, angles[segment + 1]!];
      if (Math.min(low, high) > middle || Math.max(low, high) < middle) continue;
      const awayM = reachAt(eye, lane[segment]!, lane[segment + 1]!, middle);
      if (awayM <= reachM) continue;
      reachM = awayM;
      best = segment;
    }
    if (best < 0) continue;
    for (const angle of [from, to]) {
      const awayM = reachAt(eye, lane[best]!, lane[best + 1]!, angle);
      far.push([eye[0] + awayM * Math.cos(angle), eye[1] + awayM * Math.sin(angle)]);
    }
  }
  if (angles[0]! > angles[angles.length - 1]!) far.reverse();
  return [eye, ...far];
}

/** Angles of the lane's points from the eye, each the short way on from the one before. */
function anglesOf([ex, ey]: PlanePoint, lane: readonly PlanePoint[]): number[] {
  let before = 0;
  return lane.map(([x, y], at) => {
    const angle = Math.atan2(y - ey, x - ex);
    const turn = angle - before;
    before = at === 0 ? angle : before + Math.atan2(Math.sin(turn), Math.cos(turn));
    return before;
  });
}

/** How far in meters from the eye a ray at an angle meets the line through two points. */
function reachAt([ex, ey]: PlanePoint, [ax, ay]: PlanePoint, [bx, by]: PlanePoint, angle: number): number {
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const cross = dx * (by - ay) - dy * (bx - ax);
  return ((ax - ex) * (by - ay) - (ay - ey) * (bx - ax)) / cross;
}
