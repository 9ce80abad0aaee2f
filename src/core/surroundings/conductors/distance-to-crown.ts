import { type Crown, radiusTowardM, relativeHeight } from "../../crown/crown.ts";
import { profileShare } from "../../crown/profile.ts";
import { squaredToSegment } from "../../plane/segments.ts";

/** Steps of the search over height; the distance found is within a millionth of the crown's depth. */
const SEARCH_STEPS = 40;
/** Corners of the profile that the depth inside is measured to. */
const DEPTH_STEPS = 64;
const NEWTON_STEPS = 30;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Signed distance in meters from a point to a crown, negative inside; x and y from the trunk, z above its foot.
 *
 * Outside it is the distance in space, for unequal radii too: every habit is a convex solid, and the distance to its section at a height is a
 * convex function of the height. A quadrant with a radius of 0 has no crown. Inside it is the distance to the surface in the vertical plane
 * through the trunk, which is exact for a round crown and too deep at most for others.
 */
export function distanceToCrownM(crown: Crown, xM: number, yM: number, zM: number): number {
  const { northM, eastM, southM, westM } = crown.radii;
  const isRound = northM === eastM && eastM === southM && southM === westM;
  const rhoM = Math.hypot(xM, yM);
  const towardM = isRound ? northM : radiusTowardM(crown.radii, (Math.atan2(xM, yM) * 180) / Math.PI);
  const u = relativeHeight(crown, zM);
  if (u >= 0 && u <= 1 && towardM > 0 && rhoM <= towardM * profileShare(crown.habit, u))
    return -depthM(crown, towardM, rhoM, zM);
  if (isRound) return outsideM(crown, zM, (scale) => Math.max(0, rhoM - northM * scale));
  if (northM > 0 && eastM > 0 && southM > 0 && westM > 0) {
    const alongEastM = xM >= 0 ? eastM : westM;
    const alongNorthM = yM >= 0 ? northM : southM;
    const x = Math.abs(xM);
    const y = Math.abs(yM);
    return outsideM(crown, zM, (scale) => toEllipse(x, y, alongEastM * scale, alongNorthM * scale));
  }
  return outsideM(crown, zM, (scale) =>
    Math.min(
      toQuarter(xM, yM, eastM * scale, northM * scale),
      toQuarter(xM, -yM, eastM * scale, southM * scale),
      toQuarter(-xM, -yM, westM * scale, southM * scale),
      toQuarter(-xM, yM, westM * scale, northM * scale),
    ),
  );
}

/** Least distance over all heights of the crown; `toSection` gives the distance in plan to the section at a share of the radii. */
function outsideM(crown: Crown, zM: number, toSection: (scale: number) => number): number {
  const depthM = crown.heightM - crown.crownBaseM;
  const at = (u: number): number =>
    Math.hypot(toSection(profileShare(crown.habit, u)), zM - crown.crownBaseM - u * depthM);
  let low = 0;
  let high = 1;
  let one = high - GOLDEN;
  let other = low + GOLDEN;
  let atOne = at(one);
  let atOther = at(other);
  for (let step = 0; step < SEARCH_STEPS; step += 1) {
    if (atOne <= atOther) {
      high = other;
      other = one;
      atOther = atOne;
      one = high - GOLDEN * (high - low);
      atOne = at(one);
    } else {
      low = one;
      one = other;
      atOne = atOther;
      other = low + GOLDEN * (high - low);
      atOther = at(other);
    }
  }
  // Flat bases and tops are where the search ends, not where it looks.
  return Math.min(atOne, atOther, at(0), at(1));
}

/** Distance from a point of the first quadrant to an ellipse about the origin; 0 inside. Newton's method on a convex function, from the left. */
function toEllipse(x: number, y: number, a: number, b: number): number {
  if (!(a > 0 && b > 0)) return Math.hypot(x, y);
  if ((x / a) ** 2 + (y / b) ** 2 <= 1) return 0;
  let t = Math.max(0, a * x - a * a, b * y - b * b);
  for (let step = 0; step < NEWTON_STEPS; step += 1) {
    const p = (a * x) / (t + a * a);
    const q = (b * y) / (t + b * b);
    const value = p * p + q * q - 1;
    const slope = -2 * ((p * p) / (t + a * a) + (q * q) / (t + b * b));
    const next = t - value / slope;
    if (!(next > t * (1 + 1e-14))) break;
    t = next;
  }
  return Math.hypot(x - (a * a * x) / (t + a * a), y - (b * b * y) / (t + b * b));
}

/** Distance from any point to the quarter of an ellipse in the first quadrant; its axis only when either radius is 0. */
function toQuarter(x: number, y: number, a: number, b: number): number {
  return Math.hypot(Math.min(0, x), Math.min(0, y), toEllipse(Math.max(0, x), Math.max(0, y), a, b));
}

/** Distance in the vertical plane through the trunk from a point inside the crown to its surface. */
function depthM(crown: Crown, radiusM: number, rhoM: number, zM: number): number {
  const heightM = crown.heightM - crown.crownBaseM;
  let least = Math.min(
    profileShare(crown.habit, 0) > 0 ? zM - crown.crownBaseM : Number.POSITIVE_INFINITY,
    profileShare(crown.habit, 1) > 0 ? crown.heightM - zM : Number.POSITIVE_INFINITY,
  );
  let fromRho = radiusM * profileShare(crown.habit, 0);
  let fromZ = crown.crownBaseM;
  for (let step = 1; step <= DEPTH_STEPS; step += 1) {
    const u = (1 - Math.cos((Math.PI * step) / DEPTH_STEPS)) / 2;
    const rho = radiusM * profileShare(crown.habit, Math.min(1, u));
    const z = crown.crownBaseM + u * heightM;
    least = Math.min(least, Math.sqrt(squaredToSegment(rhoM, zM, fromRho, fromZ, rho, z)));
    fromRho = rho;
    fromZ = z;
  }
  return least;
}
