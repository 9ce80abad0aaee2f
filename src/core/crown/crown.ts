import type { Habit } from "../model/terms.ts";
import type { Radii, Tree } from "../model/trees.ts";
import { highestAt, lowestAt, profileShare } from "./profile.ts";

/**
 * A crown as a solid around a vertical trunk axis: between `crownBaseM` and `heightM` its section at any height is the outline given by
 * the four radii, scaled by the habit's profile.
 */
export interface Crown {
  readonly heightM: number;
  readonly crownBaseM: number;
  readonly radii: Radii;
  readonly habit: Habit;
}

export const crownOf = (tree: Tree): Crown => ({
  heightM: tree.height.valueM,
  crownBaseM: tree.crownBase.valueM,
  radii: tree.radii,
  habit: tree.habit,
});

/** A crown with the same radius all round. */
export const roundCrown = (heightM: number, crownBaseM: number, radiusM: number, habit: Habit): Crown => ({
  heightM,
  crownBaseM,
  radii: { northM: radiusM, eastM: radiusM, southM: radiusM, westM: radiusM },
  habit,
});

/**
 * Largest crown radius in meters toward a bearing (degrees clockwise from north): elliptic between the two radii of its quadrant,
 * so it is exact at the four and smooth between them. 0 when either radius of the quadrant is 0.
 */
export function radiusTowardM(radii: Radii, bearingDeg: number): number {
  const angle = (bearingDeg * Math.PI) / 180;
  const east = Math.sin(angle);
  const north = Math.cos(angle);
  const alongEastM = east >= 0 ? radii.eastM : radii.westM;
  const alongNorthM = north >= 0 ? radii.northM : radii.southM;
  if (alongEastM === alongNorthM) return alongEastM;
  if (alongEastM <= 0 || alongNorthM <= 0) return 0;
  return 1 / Math.hypot(east / alongEastM, north / alongNorthM);
}

/** Radius in meters of the crown at a height above ground, toward a bearing; 0 outside the crown. */
export function radiusAtHeightM(crown: Crown, heightM: number, bearingDeg: number): number {
  return radiusTowardM(crown.radii, bearingDeg) * profileShare(crown.habit, relativeHeight(crown, heightM));
}

/**
 * Height in meters of the crown's lower surface at a horizontal distance from the trunk toward a bearing; +Infinity outside the crown.
 *
 * Knows nothing of droop or leaf load: the caller adds the allowance. Throws RangeError for a negative distance.
 *
 * @example lowerSurfaceM(roundCrown(12, 2.5, 5, "ellipsoid"), 3, 0) // 3.45
 */
export function lowerSurfaceM(crown: Crown, distanceM: number, bearingDeg: number): number {
  return surfaceM(crown, distanceM, bearingDeg, lowestAt, Number.POSITIVE_INFINITY);
}

/** Height in meters of the crown's upper surface, as {@link lowerSurfaceM}; -Infinity outside the crown. */
export function upperSurfaceM(crown: Crown, distanceM: number, bearingDeg: number): number {
  return surfaceM(crown, distanceM, bearingDeg, highestAt, Number.NEGATIVE_INFINITY);
}

/** Share of its height that carries live crown, 0 to 1: (height - crown base) / height. */
export const liveCrownRatio = (heightM: number, crownBaseM: number): number =>
  heightM > 0 ? Math.min(1, Math.max(0, (heightM - crownBaseM) / heightM)) : 0;

export const relativeHeight = (crown: Crown, heightM: number): number =>
  (heightM - crown.crownBaseM) / (crown.heightM - crown.crownBaseM);

function surfaceM(
  crown: Crown,
  distanceM: number,
  bearingDeg: number,
  at: (habit: Habit, share: number) => number,
  outside: number,
): number {
  if (!(distanceM >= 0)) throw new RangeError(`Expected a distance of 0 m or more, got ${distanceM}`);
  const radiusM = radiusTowardM(crown.radii, bearingDeg);
  if (distanceM > radiusM || radiusM === 0) return outside;
  return crown.crownBaseM + at(crown.habit, distanceM / radiusM) * (crown.heightM - crown.crownBaseM);
}
