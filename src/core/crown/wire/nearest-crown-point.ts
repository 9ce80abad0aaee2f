import type { Crown } from "../crown.ts";
import { distanceToCrownM } from "./distance-to-crown.ts";
import type { WirePoint } from "./swept-wire.ts";

/** Half the way in meters over which the distance's slopes are taken. */
const STEP_M = 1e-4;

/**
 * The point of a crown's surface nearest to a place, x and y from the trunk, z above its foot: from the place against the slope of the signed
 * distance by that distance. Good to a centimeter but where several points are equally near, of which it takes none exactly.
 */
export function nearestCrownPoint(crown: Crown, xM: number, yM: number, zM: number): WirePoint {
  const gapM = distanceToCrownM(crown, xM, yM, zM);
  const slope = (dx: number, dy: number, dz: number): number =>
    distanceToCrownM(crown, xM + dx, yM + dy, zM + dz) - distanceToCrownM(crown, xM - dx, yM - dy, zM - dz);
  const east = slope(STEP_M, 0, 0);
  const north = slope(0, STEP_M, 0);
  const up = slope(0, 0, STEP_M);
  const steep = Math.hypot(east, north, up);
  const scale = steep > 0 ? gapM / steep : 0;
  return { xM: xM - east * scale, yM: yM - north * scale, zM: zM - up * scale };
}
