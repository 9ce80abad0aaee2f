import type { Crown } from "../crown/crown.ts";
import type { Dose } from "../crown/dose.ts";
import { profileShare, widestAt } from "../crown/profile.ts";
import { type Conflict, RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../model/conflict.ts";
import type { ClearanceRemedy } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { bearingGapDeg } from "../units/compass.ts";
import { bearingOf } from "./bearing-of.ts";
import { LEAST_LEFT_SHARE, lossMPerYear, mayStopShort, neededM, type Reach } from "./clearance-target.ts";
import { isHeadroom, isView, isWoody } from "./kinds.ts";
import { isUnderLine, leaderCut } from "./leader-cut.ts";
import { limbDiameterOnM, limbShare, stemAtM } from "./limb.ts";

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
  /** Leaders under a line brought down to laterals; absent of every other cut. */
  readonly leaders?: LeadersDown;
}

/** Where leaders are cut back to, and whether there is something to take over. */
export interface LeadersDown {
  /** Height in meters above ground that they are brought down to. */
  readonly toM: number;
  /** Whether the laterals there that grow away from the line are thick enough to take over, by our estimate of limb sizes. */
  readonly hasLaterals: boolean;
}

/**
 * Half of what a low limb spreads to each side of its own direction, degrees: our estimate of six limbs in a tier, each filling a sixth of
 * the crown around. Inside the 5 to 8 scaffold limbs that structural pruning aims for (from memory).
 */
export const LIMB_SPREAD_DEG = 30;
const SPREAD_RAYS = Math.round(LIMB_SPREAD_DEG / RAY_STEP_DEG);

/** Unit directions of the rays, and what is taken to no end on any of them. */
const EAST = Float64Array.from({ length: RAY_COUNT }, (_, ray) => Math.sin((bearingOf(ray) * Math.PI) / 180));
const NORTH = Float64Array.from({ length: RAY_COUNT }, (_, ray) => Math.cos((bearingOf(ray) * Math.PI) / 180));
const ENDLESS = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);

/** The remedy a conflict gets in an option: the option's own where the conflict admits it, else shortening, else limbs. */
export function remedyFor(conflict: Conflict, remedy: ClearanceRemedy): ClearanceRemedy {
  if (conflict.admits.includes(remedy)) return remedy;
  return conflict.admits.includes("shorten") ? "shorten" : "remove-limb";
}

/**
 * What a remedy takes off for one conflict so that its minimum holds for `years`, in leaf after rain or under a little ice too (the conflict's
 * droop allowance), never less than the clear-to unless it {@link mayStopShort}. The top of a tree that stands under a line comes down as
 * {@link leaderCut} says, unless the line is far enough beside the trunk for what is needed.
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
  reach: Reach = "clear-to",
): Cut {
  const { tree, crown, radiiM } = subject;
  const freeM = neededM(conflict, remedy, years, reach, standard);
  const isShort = mayStopShort(conflict, reach) && freeM < conflict.clearToM;
  const moreM = isShort ? freeM - conflict.clearToM : Math.max(0, freeM - conflict.clearToM);
  if (isUnderLine(tree, conflict) && !(isShort && conflict.distanceM > freeM)) {
    return leaderCut(subject, conflict, conflict.clearToM + moreM);
  }
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
      ? Math.min(conflict.distanceM, (Math.max(0, moreM) / lossMPerYear(conflict, remedy, standard)) * regrowthM)
      : 0;
  const closer = headroom ? wayScale(conflict, behindM) : edgeScale(conflict, moreM);
  const isByWall = conflict.kind === "building-side" && mayStopShort(conflict, reach);
  const leftM = Math.max(0, conflict.distanceM - freeM);
  const reachShare = widestShare(crown, lowM, highM);
  const startM = Math.max(crown.crownBaseM, lowM);
  const widerM = tree.traits.radiusGrowthMPerYear * years;

  // Of a straight wall the points nearer than needed lie beyond the same share of every ray; of a straight line too, where it can be met.
  const wallM = isByWall && leftM > 0 ? conflict.solid!.fromM : null;
  const wallShare = leftM / conflict.distanceM;
  const isBesideLine = isShort && conflict.kind === "conductor";
  const edgeM = EDGE_M;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    edgeM[ray] = Number.POSITIVE_INFINITY;
    let fromM = given.fromM[ray]! * closer;
    if (wallM !== null) fromM = wallM[ray]! * wallShare;
    else if (isBesideLine) fromM = besideLineM(given.fromM[ray]!, leftM, ray, conflict);
    const isBehind = !headroom && fromM <= 0 && bearingGapDeg(bearingOf(ray), conflict.bearingDeg) > 90;
    if (!isBehind && fromM < (radiiM[ray]! + widerM) * reachShare) edgeM[ray] = fromM;
  }

  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const limbM = limbLengthsM(subject, reachShare, lowM, highM);
  const isWithin = remedy === "remove-limb" ? withinSpread(edgeM) : null;
  const isShortening = remedy === "shorten";
  const mayLeaveStubs = !isWoody(tree);
  const stemM = stemAtM(tree, crown, startM);
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
      (isWithin !== null &&
        isWithin[ray] === 1 &&
        (headroom || bearingGapDeg(bearingOf(ray), conflict.bearingDeg) <= 90));
    if (!isCut) continue;
    const lengthM = limbM[ray]!;
    let cutAtM = 0;
    if (isShortening) {
      cutAtM = edgeM[ray]!;
      if (!mayLeaveStubs && cutAtM < LEAST_LEFT_SHARE * lengthM) cutAtM = 0;
    }
    fromM[ray] = cutAtM;
    rays += 1;
    eastSum += EAST[ray]!;
    northSum += NORTH[ray]!;
    if (!(lengthM > cutAtM)) continue;
    const diameterM = limbDiameterOnM(tree, stemM, lengthM, cutAtM);
    thinnestM = Math.min(thinnestM, diameterM);
    thickestM = Math.max(thickestM, diameterM);
    if (isShortening) shortenShare = Math.max(shortenShare, 1 - cutAtM / lengthM);
    if (cutAtM > 0) shortenM = Math.max(shortenM, lengthM - cutAtM);
    else largestShare = Math.max(largestShare, limbShare(tree, lengthM));
  }
  const bearingDeg = (Math.atan2(eastSum, northSum) * 180) / Math.PI;
  return {
    conflict,
    remedy,
    region: {
      fromM,
      toM: ENDLESS,
      lowM: remedy === "lift" ? Number.NEGATIVE_INFINITY : lowM,
      highM,
    },
    belowM: highM,
    targetM: isByWall ? Math.min(freeM, Math.max(conflict.distanceM, conflict.minimumM)) : conflict.clearToM + moreM,
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

/** Where a ray comes nearer to a straight line than it may: `leftM` beside the trunk, at the angle between the ray and the way to the line. */
function besideLineM(givenM: number, leftM: number, ray: number, { bearingDeg }: Conflict): number {
  if (givenM === Number.POSITIVE_INFINITY) return givenM;
  const toward = Math.cos((bearingGapDeg(bearingOf(ray), bearingDeg) * Math.PI) / 180);
  return toward > 1e-9 ? leftM / toward : Number.POSITIVE_INFINITY;
}

/** Working space of one cut after another, never read across calls: where the thing begins on each ray, and whether a ray is within spread of one that reaches it. */
const EDGE_M = new Float64Array(RAY_COUNT);
const IS_WITHIN = new Uint8Array(RAY_COUNT);

/** For each ray whether one that reaches the thing runs within a limb's spread of it: twice around each way, as the count of rays begins anywhere. */
function withinSpread(edgeM: Float64Array): Uint8Array {
  IS_WITHIN.fill(0);
  for (const step of [1, -1]) {
    let away = SPREAD_RAYS + 1;
    for (let turn = 0; turn < 2 * RAY_COUNT; turn += 1) {
      const at = turn < RAY_COUNT ? turn : turn - RAY_COUNT;
      const ray = step > 0 ? at : RAY_COUNT - 1 - at;
      away = edgeM[ray]! < Number.POSITIVE_INFINITY ? 0 : away + 1;
      if (away <= SPREAD_RAYS) IS_WITHIN[ray] = 1;
    }
  }
  return IS_WITHIN;
}

/** Length in meters of the longest limb on each ray between two heights: to the crown's edge, or to a wall that stands as high as that. */
function limbLengthsM(subject: Subject, reachShare: number, lowM: number, highM: number): Float64Array {
  const { radiiM } = subject;
  const lengthsM = new Float64Array(RAY_COUNT);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) lengthsM[ray] = radiiM[ray]! * reachShare;
  if (subject.solids === undefined) return lengthsM;
  const topM = Math.min(highM, subject.crown.heightM);
  for (const { fromM, highM: solidTopM } of subject.solids.regions) {
    if (solidTopM < topM || solidTopM <= lowM) continue;
    for (let ray = 0; ray < RAY_COUNT; ray += 1) if (fromM[ray]! < lengthsM[ray]!) lengthsM[ray] = fromM[ray]!;
  }
  return lengthsM;
}

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
