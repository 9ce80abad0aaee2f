import { squaredToSegment } from "../../plane/segments.ts";
import { metersFromFeet } from "../../units/length.ts";
import { type Crown, radiusTowardM } from "../crown.ts";
import { profileShare, widestAt } from "../profile.ts";

/** The firebreak of 14 CCR 1254 (under PRC 4292): 10 ft from the pole's outside at the ground, all vegetation cleared up to 8 ft. */
export const POLE_CLEAR_M = metersFromFeet(10);
export const POLE_ALL_BELOW_M = metersFromFeet(8);
/** A cylinder about a pole, from its outside at the ground: its radius, and up to which height everything goes. */
export interface PoleClearing {
  readonly radiusM: number;
  readonly allBelowM: number;
}
export const POLE_FIREBREAK: PoleClearing = { radiusM: POLE_CLEAR_M, allBelowM: POLE_ALL_BELOW_M };
/** Radius of a wood pole at the ground where it is not known. Common practice, no source. */
export const ASSUMED_POLE_RADIUS_M = metersFromFeet(0.5);

/** A pole in meters of a plane; heights above its foot. Which poles the rule is for (switch, fuse, transformer, dead end ...) the caller knows. */
export interface Pole {
  readonly xM: number;
  readonly yM: number;
  readonly radiusM: number;
  /** Height of the highest conductor's attachment. */
  readonly attachmentM: number;
}

/** What must go at a place: everything (`all`), or only what is dead, diseased or dying (`dead`). */
export type PoleZone = "all" | "dead";

/** What the firebreak asks at a place, z above the pole's foot; null outside it. The upper edge of each part belongs to it, below ground is in it. */
export function poleZone(pole: Pole, xM: number, yM: number, zM: number): PoleZone | null {
  if (zM > pole.attachmentM || Math.hypot(xM - pole.xM, yM - pole.yM) - pole.radiusM > POLE_CLEAR_M) return null;
  return zM <= Math.min(POLE_ALL_BELOW_M, pole.attachmentM) ? "all" : "dead";
}

/** Whether a limb at a place must be removed: any below 8 ft, above it only one that is not alive and sound. */
export function mustClearLimb(pole: Pole, xM: number, yM: number, zM: number, isSound: boolean): boolean {
  const zone = poleZone(pole, xM, yM, zM);
  return zone === "all" || (zone === "dead" && !isSound);
}

/** Corners of a crown's outline; the chords lie at most 0.02 % of the radius inside it. */
const CORNERS = 180;

/**
 * How far in meters a crown reaches into a part of the cylinder, measured in plan from its wall toward the pole; negative is the way it stays
 * out, -Infinity when no part of the crown is at those heights. Trunk at a place of the pole's plane, its foot `footM` above the pole's.
 */
export function crownInPoleM(
  pole: Pole,
  zone: PoleZone,
  crown: Crown,
  trunkXM: number,
  trunkYM: number,
  footM = 0,
  clearing = POLE_FIREBREAK,
): number {
  const depthM = crown.heightM - crown.crownBaseM;
  const lowM = (zone === "all" ? Number.NEGATIVE_INFINITY : clearing.allBelowM) - footM;
  const highM = (zone === "all" ? Math.min(clearing.allBelowM, pole.attachmentM) : pole.attachmentM) - footM;
  if (!(depthM > 0) || highM < lowM || highM < crown.crownBaseM || lowM > crown.heightM)
    return Number.NEGATIVE_INFINITY;
  const low = Math.max(0, (lowM - crown.crownBaseM) / depthM);
  const high = Math.min(1, (highM - crown.crownBaseM) / depthM);
  const scale = profileShare(crown.habit, Math.min(high, Math.max(low, widestAt(crown.habit))));
  return clearing.radiusM + pole.radiusM - toOutlineM(crown, scale, pole.xM - trunkXM, pole.yM - trunkYM);
}

/** Distance in plan from a point, relative to the trunk, to the crown's section at a share of its radii; 0 inside. */
function toOutlineM(crown: Crown, scale: number, xM: number, yM: number): number {
  const bearingDeg = (Math.atan2(xM, yM) * 180) / Math.PI;
  if (Math.hypot(xM, yM) <= radiusTowardM(crown.radii, bearingDeg) * scale) return 0;
  let least = Number.POSITIVE_INFINITY;
  let fromX = 0;
  let fromY = 0;
  for (let corner = 0; corner <= CORNERS; corner += 1) {
    const deg = (360 * corner) / CORNERS;
    const radiusM = radiusTowardM(crown.radii, deg) * scale;
    const toX = radiusM * Math.sin((deg * Math.PI) / 180);
    const toY = radiusM * Math.cos((deg * Math.PI) / 180);
    if (corner > 0) least = Math.min(least, squaredToSegment(xM, yM, fromX, fromY, toX, toY));
    fromX = toX;
    fromY = toY;
  }
  return Math.sqrt(least);
}
