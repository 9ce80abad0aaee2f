import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, type IsoDate } from "../units/calendar.ts";
import { formatDate } from "../units/format-date.ts";
import { formatShare } from "../units/format-length.ts";

/** How far a tree has come in its life: what it bears grows less with age. */
export type LifeStage = "young" | "medium" | "mature" | "over-mature";

/** Share of its species' mature height from which a tree counts as mature; our policy. */
const MATURE_HEIGHT_SHARE = 0.75;
/** Share of its species' mature height below which a tree counts as young; our policy. */
const YOUNG_HEIGHT_SHARE = 0.5;
/** Measured stem in meters from which a tree of mature height counts as over-mature; our policy, as no inventory tells a veteran's age. */
const OVER_MATURE_DBH_M = 1;

export interface DoseLimit {
  /** Share of live crown one season's work may take, 0 to the standard's ceiling. */
  readonly share: number;
  /** What is left of it until `freshOn`; equal to `share` when nothing was taken in the last 12 months. */
  readonly leftShare: number;
  /** The date from which the whole share is free again; null when it is already. */
  readonly freshOn: IsoDate | null;
  readonly reason: string;
}

/**
 * The limit on one season's dose for a tree by life stage and condition: 25 % for young trees, 20 % for medium, 15 % for mature, 10 % for
 * over-mature ones and in poor condition (figures of the standard), never more than its ceiling. A pruning in the last 12 months counts
 * against it; one of unknown dose counts as the whole ceiling.
 */
export function doseLimit(tree: Tree, asOf: IsoDate, standard: Standard): DoseLimit {
  const { ceilingShare, mediumShare, matureShare, overMatureShare, stressedShare } = standard.pruning;
  const stage = lifeStage(tree);
  const byStage: Readonly<Record<LifeStage, number>> = {
    young: ceilingShare,
    medium: mediumShare,
    mature: matureShare,
    "over-mature": overMatureShare,
  };
  const isStressed = tree.condition === "poor" && stressedShare <= byStage[stage];
  const share = Math.min(ceilingShare, isStressed ? stressedShare : byStage[stage]);
  const reason = `${isStressed ? "in poor condition" : stage}: at most ${formatShare(share)} in 12 months`;
  if (tree.lastPruned === null) return { share, leftShare: share, freshOn: null, reason };
  const freshOn = addMonths(tree.lastPruned, 12);
  if (freshOn <= asOf) return { share, leftShare: share, freshOn: null, reason };
  const spent = tree.lastDoseShare ?? ceilingShare;
  if (spent <= 0) return { share, leftShare: share, freshOn: null, reason };
  return {
    share,
    leftShare: Math.max(0, share - spent),
    freshOn,
    reason: `${reason}; ${tree.lastDoseShare === null ? "all of it counted as" : formatShare(spent)} spent by the pruning of ${formatDate(tree.lastPruned)}`,
  };
}

/** The life stage that a tree's height against its species' mature height, and a large measured stem, tell. */
export function lifeStage(tree: Tree): LifeStage {
  if (isYoung(tree)) return "young";
  if (tree.height.valueM < MATURE_HEIGHT_SHARE * tree.traits.matureHeightM) return "medium";
  const isLarge = tree.dbhBasis === "measured" && tree.dbhM !== null && tree.dbhM >= OVER_MATURE_DBH_M;
  return isLarge ? "over-mature" : "mature";
}

/** Well under its species' mature height, so that an interim lift may serve until it has grown. */
export const isYoung = (tree: Tree): boolean => tree.height.valueM < YOUNG_HEIGHT_SHARE * tree.traits.matureHeightM;
