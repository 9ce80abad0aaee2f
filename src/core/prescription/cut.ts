import type { Crown } from "../crown/crown.ts";
import type { Dose } from "../crown/dose.ts";
import { profileShare, widestAt } from "../crown/profile.ts";
import { type Conflict, RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../model/conflict.ts";
import { SIGHT_KINDS } from "../model/surroundings.ts";
import type { ClearanceRemedy, ConflictKind } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { bearingGapDeg } from "../units/compass.ts";
import { limbDiameterM, limbShare } from "./limb.ts";

/** A tree as it stands when the work is done. */
export interface Subject {
  readonly tree: Tree;
  readonly crown: Crown;
  /** Crown radius in meters along each removal ray. */
  readonly radiiM: Float64Array;
  /** What buildings fill around it, where no branch is, and the share of the crown's outline that lies in it. */
  readonly solids?: { readonly regions: readonly RemovalRegion[]; readonly dose: Dose };
}

/** What one remedy takes off for one conflict. */
export interface Cut {
  readonly conflict: Conflict;
  readonly remedy: ClearanceRemedy;
  readonly region: RemovalRegion;
  /** Height in meters above ground below which branches come off. */
  readonly belowM: number;
  /** Clear distance in meters at walls and conductors, headroom elsewhere, that the cut reaches. */
  readonly targetM: number;
  /** How far in meters behind the edge of a way, roof or view tips are cut back, toward the trunk. */
  readonly behindM: number;
  /** Length in meters of the limbs on each ray, between the heights that are cut. */
  readonly limbM: Float64Array;
  /** Longest tip taken off a limb that stays, meters; 0 when none is shortened. */
  readonly shortenM: number;
  /** The same as a share of that limb's length. */
  readonly shortenShare: number;
  readonly limbDiameterM: readonly [number, number];
  /** Largest limb taken off whole, as a share of the stem's diameter where it starts. */
  readonly limbShare: number;
  /** Middle bearing of the rays that are cut; null when that is all round, the bearing of the thing when there are none. */
  readonly bearingDeg: number | null;
  /** How many of the rays are cut. */
  readonly rays: number;
}

/** Of a limb less than this share of its length cannot stay: a lateral of a third to take over is not to be expected. Our policy. */
const LEAST_LEFT_SHARE = 1 / 3;

/**
 * Half of what a low limb spreads to each side of its own direction, degrees: our estimate of six limbs in a tier, each filling a sixth of
 * the crown around. Inside the 5 to 8 scaffold limbs that structural pruning aims for (from memory).
 */
export const LIMB_SPREAD_DEG = 30;
const SPREAD_RAYS = Math.round(LIMB_SPREAD_DEG / RAY_STEP_DEG);

/** Whether the conflict is measured as free height; else as free distance. */
export const isHeadroom = (kind: ConflictKind): boolean => kind !== "building-side" && kind !== "conductor";

/** Whether the conflict is with what a driver must see: a triangle, a curve, the face of a sign or signal. */
export const isView = (kind: ConflictKind): boolean => (SIGHT_KINDS as readonly ConflictKind[]).includes(kind);

export const isWoody = (tree: Tree): boolean => tree.form !== "shrub" && tree.form !== "hedge";

export const isConifer = (tree: Tree): boolean =>
  tree.form === "conifer" || (tree.form === "tree" && tree.traits.isConifer);

/** Meters a year by which a cut loses clearance: regrowth by kind of cut (standard, policy), and droop where headroom counts. */
export function lossMPerYear(conflict: Conflict, remedy: ClearanceRemedy, standard: Standard): number {
  const { regrowthShortenMPerYear, regrowthRemoveMPerYear, droopMPerYear } = standard.pruning;
  const regrowth = remedy === "shorten" ? regrowthShortenMPerYear : regrowthRemoveMPerYear;
  return regrowth + (isHeadroom(conflict.kind) ? droopMPerYear : 0);
}

/**
 * Whether the trunk stands so near to a wall that of a limb cut back to the clear-to less than a third would stay: within one and a half
 * times the clear-to. Such a tree is cleared as far as its limits allow, to the minimum at least, or it would lose every limb on that side.
 */
export const standsNearWall = (conflict: Conflict): boolean =>
  conflict.kind === "building-side" &&
  conflict.solid !== undefined &&
  conflict.distanceM * (1 - LEAST_LEFT_SHARE) < conflict.clearToM;

/** A tree that {@link standsNearWall} is cut so that the minimum holds this long at least; our policy, one growing season. */
const NEAR_WALL_YEARS = 1;

/** What must stay free in meters even when branches hang at their lowest of the year: the minimum and the droop allowance above it. */
const leastFreeM = ({ minimumM, droopAllowanceM }: Conflict): number => minimumM + (droopAllowanceM ?? 0);

/** Years until the least cut that is allowed, one that just reaches the clear-to, is back at the minimum. */
export const yearsAtClearTo = (conflict: Conflict, remedy: ClearanceRemedy, standard: Standard): number =>
  standsNearWall(conflict)
    ? NEAR_WALL_YEARS
    : Math.max(0, conflict.clearToM - leastFreeM(conflict)) / lossMPerYear(conflict, remedy, standard);

/** The remedy a conflict gets in an option: the option's own where the conflict admits it, else shortening, else limbs. */
export function remedyFor(conflict: Conflict, remedy: ClearanceRemedy): ClearanceRemedy {
  if (conflict.admits.includes(remedy)) return remedy;
  return conflict.admits.includes("shorten") ? "shorten" : "remove-limb";
}

/**
 * What a remedy takes off for one conflict so that its minimum holds for `years`, in leaf after rain or under a little ice too (the conflict's
 * droop allowance), never less than the clear-to unless the trunk stands near a wall.
 *
 * Shorten: limbs that reach the thing are cut back to its edge, with all they carry farther out; a limb of which less than a third
 * would stay comes off whole. Remove limb: every limb of which some foliage reaches the thing comes off whole, from the trunk outward,
 * up to the target. Nobody knows where the limbs are; one comes off if it grows within its own spread of a ray that reaches the thing,
 * so that on average the rays cut are those that reach it and {@link LIMB_SPREAD_DEG} more on each side. Lift: all round up to the
 * target. Rays are judged on the crown as wide as it will be in those years. For more years than the clear-to gives, the edge of
 * shortened tips moves toward the trunk by what they grow back. Rays behind the trunk are never cut for a wall or wire. Limbs end at
 * the walls of buildings.
 */
export function cutFor(
  subject: Subject,
  conflict: Conflict,
  remedy: ClearanceRemedy,
  years: number,
  standard: Standard,
): Cut {
  const { tree, crown, radiiM } = subject;
  const neededM = leastFreeM(conflict) + lossMPerYear(conflict, remedy, standard) * years;
  const moreM = Math.max(0, neededM - conflict.clearToM);
  const headroom = isHeadroom(conflict.kind);
  const given = conflict.region;
  // A sight line over shrubs is kept by holding them below its window: they have no leader that could be topped.
  const holdsBelow = !isWoody(tree) && isView(conflict.kind) && remedy === "shorten";
  const lowM = conflict.kind === "conductor" ? given.lowM - moreM : given.lowM;
  const highM = holdsBelow
    ? Number.POSITIVE_INFINITY
    : given.highM + (headroom || conflict.kind === "conductor" ? moreM : 0);
  const regrowthM = standard.pruning.regrowthShortenMPerYear;
  const behindM =
    headroom && remedy === "shorten"
      ? Math.min(conflict.distanceM, (moreM / lossMPerYear(conflict, remedy, standard)) * regrowthM)
      : 0;
  const closer = headroom ? wayScale(conflict, behindM) : edgeScale(conflict, moreM);
  const isNear = standsNearWall(conflict);
  const ofWall = Math.max(0, conflict.distanceM - neededM) / conflict.distanceM;
  const reachShare = widestShare(crown, lowM, highM);
  const startM = Math.max(crown.crownBaseM, lowM);
  const widerM = tree.traits.radiusGrowthMPerYear * years;

  const edgeM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    // Of a straight wall the points nearer than needed lie beyond the same share of every ray.
    const fromM = isNear && ofWall > 0 ? conflict.solid!.fromM[ray]! * ofWall : given.fromM[ray]! * closer;
    const isBehind = !headroom && fromM <= 0 && bearingGapDeg(bearingOf(ray), conflict.bearingDeg) > 90;
    if (!isBehind && fromM < (radiiM[ray]! + widerM) * reachShare) edgeM[ray] = fromM;
  }

  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const limbM = limbLengthsM(subject, reachShare, lowM, highM);
  let shortenM = 0;
  let shortenShare = 0;
  let thinnestM = Number.POSITIVE_INFINITY;
  let thickestM = 0;
  let largestShare = 0;
  let rays = 0;
  let eastSum = 0;
  let northSum = 0;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const isCut =
      remedy === "lift" ||
      edgeM[ray]! < Number.POSITIVE_INFINITY ||
      (remedy === "remove-limb" &&
        isWithinSpread(edgeM, ray) &&
        (headroom || bearingGapDeg(bearingOf(ray), conflict.bearingDeg) <= 90));
    if (!isCut) continue;
    const lengthM = limbM[ray]!;
    let cutAtM = 0;
    if (remedy === "shorten") {
      cutAtM = edgeM[ray]!;
      if (isWoody(tree) && cutAtM < LEAST_LEFT_SHARE * lengthM) cutAtM = 0;
    }
    fromM[ray] = cutAtM;
    rays += 1;
    const bearing = (bearingOf(ray) * Math.PI) / 180;
    eastSum += Math.sin(bearing);
    northSum += Math.cos(bearing);
    if (!(lengthM > cutAtM)) continue;
    const diameterM = limbDiameterM(tree, crown, startM, lengthM, cutAtM);
    thinnestM = Math.min(thinnestM, diameterM);
    thickestM = Math.max(thickestM, diameterM);
    if (remedy === "shorten") shortenShare = Math.max(shortenShare, 1 - cutAtM / lengthM);
    if (cutAtM > 0) shortenM = Math.max(shortenM, lengthM - cutAtM);
    else largestShare = Math.max(largestShare, limbShare(tree, lengthM));
  }
  const bearingDeg = (Math.atan2(eastSum, northSum) * 180) / Math.PI;
  return {
    conflict,
    remedy,
    region: {
      fromM,
      toM: new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY),
      lowM: remedy === "lift" ? Number.NEGATIVE_INFINITY : lowM,
      highM,
    },
    belowM: highM,
    targetM: isNear ? Math.min(neededM, Math.max(conflict.distanceM, conflict.minimumM)) : conflict.clearToM + moreM,
    behindM,
    limbM,
    shortenM,
    shortenShare,
    limbDiameterM: thickestM > 0 ? [thinnestM, thickestM] : [0, 0],
    limbShare: largestShare,
    bearingDeg: rays > RAY_COUNT * 0.9 ? null : rays === 0 ? conflict.bearingDeg : (bearingDeg + 360) % 360,
    rays,
  };
}

/** Whether a ray that reaches the thing runs within a limb's spread of this one. */
function isWithinSpread(edgeM: Float64Array, ray: number): boolean {
  for (let away = 1; away <= SPREAD_RAYS; away += 1) {
    if (edgeM[(ray + away) % RAY_COUNT]! < Number.POSITIVE_INFINITY) return true;
    if (edgeM[(ray + RAY_COUNT - away) % RAY_COUNT]! < Number.POSITIVE_INFINITY) return true;
  }
  return false;
}

/** Length in meters of the longest limb on each ray between two heights: to the crown's edge, or to a wall that stands as high as that. */
function limbLengthsM(subject: Subject, reachShare: number, lowM: number, highM: number): Float64Array {
  const lengthsM = subject.radiiM.map((radiusM) => radiusM * reachShare);
  const topM = Math.min(highM, subject.crown.heightM);
  for (const solid of subject.solids?.regions ?? []) {
    if (solid.highM < topM || solid.highM <= lowM) continue;
    for (let ray = 0; ray < RAY_COUNT; ray += 1) lengthsM[ray] = Math.min(lengthsM[ray]!, solid.fromM[ray]!);
  }
  return lengthsM;
}

/** Bearing in degrees of the middle of a removal ray. */
export const bearingOf = (ray: number): number => (ray + 0.5) * RAY_STEP_DEG;

/** Largest profile share between two heights above ground, 0 when the crown has nothing there. */
function widestShare(crown: Crown, lowM: number, highM: number): number {
  const depthM = crown.heightM - crown.crownBaseM;
  const lowU = Math.max(0, (lowM - crown.crownBaseM) / depthM);
  const highU = Math.min(1, (highM - crown.crownBaseM) / depthM);
  if (!(depthM > 0) || !(highU > lowU)) return 0;
  return profileShare(crown.habit, Math.min(highU, Math.max(lowU, widestAt(crown.habit))));
}

/** Factor by which the distance to a way shrinks when tips are cut back this much behind its edge; exact for a straight edge. */
function wayScale(conflict: Conflict, behindM: number): number {
  if (behindM <= 0) return 1;
  return conflict.distanceM > 0 ? Math.max(0, conflict.distanceM - behindM) / conflict.distanceM : 0;
}

/** Factor by which the distance to the cutting edge shrinks when it moves toward the trunk; exact for a straight wall or wire. */
function edgeScale(conflict: Conflict, moreM: number): number {
  const edgeM = conflict.distanceM - conflict.clearToM;
  return edgeM > 0 ? Math.max(0, edgeM - moreM) / edgeM : 0;
}
