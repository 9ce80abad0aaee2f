import { leastByGoldenSection } from "../../plane/golden-section.ts";
import { squaredToSegment } from "../../plane/segments.ts";
import { type Crown, radiusTowardM, relativeHeight } from "../crown.ts";
import { profileShare } from "../profile.ts";

/** Steps of the search over height; 10 m of crown are narrowed to less than a tenth of a millimeter. */
const SEARCH_STEPS = 26;
/** Corners of the profile that the depth inside is measured to. */
const DEPTH_STEPS = 64;
const NEWTON_STEPS = 30;

/**
 * Signed distance in meters from a point to a crown, negative inside; x and y from the trunk, z above its foot.
 *
 * Outside it is the distance in space to 0.1 mm, for unequal radii too: every habit is a convex solid, and the distance to its section at a
 * height is a convex function of the height. A quadrant with a radius of 0 has no crown. Inside it is the distance to the surface in the vertical
 * plane through the trunk, which is exact for a round crown and too deep at most for others.
 */
export function distanceToCrownM(crown: Crown, xM: number, yM: number, zM: number): number {
  const { northM, eastM, southM, westM } = crown.radii;
  const isRound = northM === eastM && eastM === southM && southM === westM;
  const rhoM = Math.sqrt(xM * xM + yM * yM);
  const towardM = isRound ? northM : radiusTowardM(crown.radii, (Math.atan2(xM, yM) * 180) / Math.PI);
  const u = relativeHeight(crown, zM);
  if (u >= 0 && u <= 1 && towardM > 0 && rhoM <= towardM * profileShare(crown.habit, u))
    return -depthM(crown, towardM, rhoM, zM);
  if (isRound) return toQuarterM(crown, rhoM, 0, zM, northM, northM);
  const isWhole = northM > 0 && eastM > 0 && southM > 0 && westM > 0;
  // A convex outline that crosses its axes squarely has its nearest point in the quadrant of the place.
  if (isWhole)
    return toQuarterM(crown, Math.abs(xM), Math.abs(yM), zM, xM >= 0 ? eastM : westM, yM >= 0 ? northM : southM);
  return Math.min(
    toQuarterM(crown, xM, yM, zM, eastM, northM),
    toQuarterM(crown, xM, -yM, zM, eastM, southM),
    toQuarterM(crown, -xM, -yM, zM, westM, southM),
    toQuarterM(crown, -xM, yM, zM, westM, northM),
  );
}

/**
 * Distance from a point outside to the quarter of a crown between its two radii a along x and b along y; a point behind either axis is as far
 * from it as its foot on the axis, and the way there. A quarter without width is the trunk.
 */
function toQuarterM(crown: Crown, xM: number, yM: number, zM: number, a: number, b: number): number {
  const x = Math.max(0, xM);
  const y = Math.max(0, yM);
  const behind = Math.min(0, xM) ** 2 + Math.min(0, yM) ** 2;
  const isThere = a > 0 && b > 0;
  const ahead = toSolidM(crown, x, y, zM, isThere ? a : 0, isThere ? b : 0);
  return Math.sqrt(behind + ahead * ahead);
}

function toSolidM(crown: Crown, x: number, y: number, zM: number, a: number, b: number): number {
  const { habit, crownBaseM, heightM } = crown;
  const depthM = heightM - crownBaseM;
  const outsideM = zM - Math.max(crownBaseM, Math.min(heightM, zM));
  if (habit === "column" || a === 0) return pythagoras(toEllipsoid(x, y, 0, a, b, 1), outsideM);
  if (habit === "ellipsoid") return toEllipsoid(x, y, Math.abs(zM - crownBaseM - depthM / 2), a, b, depthM / 2);
  if (habit === "dome")
    return pythagoras(toEllipsoid(x, y, Math.max(0, zM - crownBaseM), a, b, depthM), Math.min(0, zM - crownBaseM));
  return overHeightsM(crown, zM, (scale) => toEllipsoid(x, y, 0, a * scale, b * scale, 1));
}

/** Least distance over all heights of the crown; `toSection` gives the distance in plan to the section at a share of the radii. */
function overHeightsM(crown: Crown, zM: number, toSection: (scale: number) => number): number {
  const depthM = crown.heightM - crown.crownBaseM;
  const at = (u: number): number =>
    pythagoras(toSection(profileShare(crown.habit, u)), zM - crown.crownBaseM - u * depthM);
  return leastByGoldenSection(0, 1, SEARCH_STEPS, at);
}

/**
 * Distance from a point of the first octant to an ellipsoid about the origin; 0 inside. z of 0 is the ellipse in plan. Newton's method on a
 * convex falling function, from the left of its root (D. Eberly, Distance from a point to an ellipse, an ellipsoid, or a hyperellipsoid).
 */
function toEllipsoid(x: number, y: number, z: number, a: number, b: number, c: number): number {
  if (!(a > 0 && b > 0)) return Math.sqrt(x * x + y * y + z * z);
  const [aa, bb, cc] = [a * a, b * b, c * c];
  if ((x * x) / aa + (y * y) / bb + (z * z) / cc <= 1) return 0;
  let t = Math.max(0, a * x - aa, b * y - bb, c * z - cc);
  for (let step = 0; step < NEWTON_STEPS; step += 1) {
    const p = ((a * x) / (t + aa)) ** 2;
    const q = ((b * y) / (t + bb)) ** 2;
    const r = ((c * z) / (t + cc)) ** 2;
    const next = t + (p + q + r - 1) / (2 * (p / (t + aa) + q / (t + bb) + r / (t + cc)));
    if (!(next > t * (1 + 1e-12))) break;
    t = next;
  }
  return t * Math.sqrt((x / (t + aa)) ** 2 + (y / (t + bb)) ** 2 + (z / (t + cc)) ** 2);
}

/** As `Math.hypot` of two, without its care for numbers beyond any length. */
const pythagoras = (a: number, b: number): number => Math.sqrt(a * a + b * b);

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
