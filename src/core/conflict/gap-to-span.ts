import { profileShare } from "../crown/profile.ts";
import { HABITS, type Habit } from "../model/terms.ts";
import { nearestShare, squaredToSegment } from "../plane/segments.ts";
import { type CrownSize, radiusAlong } from "./crown-size.ts";

/** Corners of a profile; chosen so that the chord lies at most 0.03 % of the radius inside an ellipsoid. */
const PROFILE_STEPS = 64;
/** Distance in meters between the first samples along a span, and steps of the search between the two around the best. */
const SAMPLE_M = 1;
const REFINE_STEPS = 24;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Relative heights of the corners, dense at base and top, and the share of the radius at each, by habit. */
const HEIGHTS = Float64Array.from(
  { length: PROFILE_STEPS + 1 },
  (_, step) => (1 - Math.cos((Math.PI * step) / PROFILE_STEPS)) / 2,
);
const PROFILES: ReadonlyMap<Habit, Float64Array> = new Map(
  HABITS.map((habit) => [habit, HEIGHTS.map((u) => profileShare(habit, Math.min(1, u)))]),
);

/** Where a crown comes nearest to a span: gap in meters (negative inside the crown), height of the wire there, place relative to the trunk. */
export interface SpanGap {
  gapM: number;
  wireM: number;
  xM: number;
  yM: number;
}

/**
 * Writes where a crown comes nearest to one sagged span, a parabola between its attachments in still air; `raiseM` moves the wire up. Ends
 * of the span relative to the trunk, seven numbers from `spans[at]`. Only the part within `reachM` of the trunk in plan is searched; none
 * there gives an infinite gap.
 *
 * A crown of unequal radii is measured in the vertical plane through the trunk and the point of the wire, which is exact for a round one.
 */
export function gapToSpan(
  into: SpanGap,
  size: CrownSize,
  spans: Float64Array,
  at: number,
  trunkXM: number,
  trunkYM: number,
  raiseM: number,
  reachM: number,
): void {
  into.gapM = Number.POSITIVE_INFINITY;
  const ax = spans[at]! - trunkXM;
  const ay = spans[at + 1]! - trunkYM;
  const dx = spans[at + 3]! - spans[at]!;
  const dy = spans[at + 4]! - spans[at + 1]!;
  const az = spans[at + 2]! + raiseM;
  const dz = spans[at + 5]! - spans[at + 2]!;
  const sagM = spans[at + 6]!;
  const lengthM = Math.hypot(dx, dy);
  const middle = nearestShare(0, 0, ax, ay, ax + dx, ay + dy);
  const asideM = Math.hypot(ax + middle * dx, ay + middle * dy);
  if (asideM > reachM) return;
  const half = lengthM > 0 ? Math.sqrt(reachM * reachM - asideM * asideM) / lengthM : 0;
  const from = Math.max(0, middle - half);
  const to = Math.min(1, middle + half);
  const samples = Math.max(2, Math.ceil(((to - from) * lengthM) / SAMPLE_M));
  const gapAt = (share: number): number =>
    gapToCrown(size, ax + share * dx, ay + share * dy, az + share * dz - 4 * sagM * share * (1 - share));
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (let sample = 0; sample <= samples; sample += 1) {
    const share = from + ((to - from) * sample) / samples;
    const gapM = gapAt(share);
    if (gapM >= least) continue;
    best = share;
    least = gapM;
  }
  const step = (to - from) / samples;
  let low = Math.max(from, best - step);
  let high = Math.min(to, best + step);
  for (let turn = 0; turn < REFINE_STEPS && high > low; turn += 1) {
    const one = high - GOLDEN * (high - low);
    const other = low + GOLDEN * (high - low);
    if (gapAt(one) <= gapAt(other)) high = other;
    else low = one;
  }
  const share = (low + high) / 2;
  const refinedM = gapAt(share);
  if (refinedM < least) {
    best = share;
    least = refinedM;
  }
  into.gapM = least;
  into.xM = ax + best * dx;
  into.yM = ay + best * dy;
  into.wireM = az + best * dz - 4 * sagM * best * (1 - best);
}

/** Signed distance in meters from a point (relative to the trunk, height above ground) to a crown's surface; negative inside. */
export function gapToCrown(size: CrownSize, xM: number, yM: number, zM: number): number {
  const rhoM = Math.hypot(xM, yM);
  const radiusM = rhoM > 0 ? radiusAlong(size, xM / rhoM, yM / rhoM) : radiusAlong(size, 0, 1);
  const depthM = size.heightM - size.baseM;
  const profile = PROFILES.get(size.habit)!;
  // Flat base and top of the habits that have one; a point on the axis otherwise.
  let least = Math.min(
    squaredToSegment(rhoM, zM, 0, size.baseM, radiusM * profile[0]!, size.baseM),
    squaredToSegment(rhoM, zM, 0, size.heightM, radiusM * profile[PROFILE_STEPS]!, size.heightM),
  );
  for (let step = 0; step < PROFILE_STEPS; step += 1) {
    const squared = squaredToSegment(
      rhoM,
      zM,
      radiusM * profile[step]!,
      size.baseM + HEIGHTS[step]! * depthM,
      radiusM * profile[step + 1]!,
      size.baseM + HEIGHTS[step + 1]! * depthM,
    );
    if (squared < least) least = squared;
  }
  const u = (zM - size.baseM) / depthM;
  const isInside = u >= 0 && u <= 1 && rhoM <= radiusM * profileShare(size.habit, u);
  return isInside ? -Math.sqrt(least) : Math.sqrt(least);
}
