import { profileShare } from "../crown/profile.ts";
import { type Conflict, RAY_COUNT } from "../model/conflict.ts";
import type { Tree } from "../model/trees.ts";
import { bearingGapDeg } from "../units/compass.ts";
import { bearingOf } from "./bearing-of.ts";
import type { Cut, Subject } from "./cut.ts";
import { isWoody } from "./kinds.ts";
import { limbDiameterM, limbShare, stemAtM } from "./limb.ts";

/** A lateral that takes over from a leader is at least this share of it (Univ. of Florida, read). */
const LEAST_LATERAL_SHARE = 1 / 3;
/** Of the tops that are taken nothing thinner than this is counted, meters. */
const THINNEST_M = 0.01;
/** Steps of height in which a place to cut back to is looked for, meters. */
const STEP_M = 0.05;

/** Whether the tree's top lies within the line's clear-to: only something done to its leaders would clear it. */
export const isUnderLine = (tree: Tree, conflict: Conflict): boolean =>
  conflict.kind === "conductor" &&
  conflict.distanceM < conflict.clearToM &&
  tree.height.valueM > conflict.region.lowM &&
  tree.height.valueM <= conflict.region.highM;

/**
 * Directional reduction of the leaders of a tree under a line, so that so many meters below it are free: they come down to the highest laterals below
 * that grow away from the line and are at least a third as thick, by our estimate of limb sizes; all that hangs on them goes too. Where
 * the estimate finds no such laterals the cut says so, and must not be made: it would be topping.
 */
export function leaderCut(subject: Subject, conflict: Conflict, freeM: number): Cut {
  const { tree, crown, radiiM } = subject;
  const mostM = conflict.region.lowM + conflict.clearToM - freeM;
  const awayM = radiiM.reduce(
    (longest, radiusM, ray) =>
      bearingGapDeg(bearingOf(ray), conflict.bearingDeg) > 90 ? Math.max(longest, radiusM) : longest,
    0,
  );
  const depthM = crown.heightM - crown.crownBaseM;
  const lateralShare = (heightM: number) =>
    limbShare(tree, awayM * profileShare(crown.habit, (heightM - crown.crownBaseM) / depthM));
  let toM = Math.min(mostM, crown.heightM);
  // Shrubs and hedges have no leaders: they are held below the line by trimming.
  while (isWoody(tree) && toM > crown.crownBaseM && lateralShare(toM) < LEAST_LATERAL_SHARE) toM -= STEP_M;
  const hasLaterals = toM > crown.crownBaseM;
  if (!hasLaterals) toM = Math.max(0, mostM);
  const leaderM = isWoody(tree) ? stemAtM(tree, crown, toM) : limbDiameterM(tree, crown, toM, awayM, 0);
  const takenM = Math.max(0, crown.heightM - toM);
  return {
    conflict,
    remedy: "shorten",
    region: {
      fromM: new Float64Array(RAY_COUNT),
      toM: new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY),
      lowM: toM,
      highM: Number.POSITIVE_INFINITY,
    },
    belowM: Number.POSITIVE_INFINITY,
    targetM: freeM + (mostM - toM),
    behindM: 0,
    limbM: Float64Array.from(radiiM),
    shortenM: takenM,
    shortenShare: 0,
    limbDiameterM: takenM > 0 ? [Math.min(THINNEST_M, leaderM), leaderM] : [0, 0],
    limbShare: leaderM / Math.max(leaderM, stemAtM(tree, crown, 0)),
    bearingDeg: null,
    rays: RAY_COUNT,
    leaders: { toM, hasLaterals },
  };
}
