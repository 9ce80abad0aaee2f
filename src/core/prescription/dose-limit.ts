import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, type IsoDate } from "../units/calendar.ts";
import { formatDate } from "../units/format-date.ts";
import { formatShare } from "../units/format-length.ts";

/** Share of its species' mature height from which a tree counts as mature; our policy. */
const MATURE_HEIGHT_SHARE = 0.75;
/** Share of its species' mature height below which a tree counts as young; our policy. */
const YOUNG_HEIGHT_SHARE = 0.5;

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
 * The limit on one season's dose for a tree: 25 % as a rule, 15 % for mature trees, 10 % in poor condition (figures of the
 * standard). A pruning in the last 12 months counts against it; one of unknown dose counts as the whole ceiling.
 */
export function doseLimit(tree: Tree, asOf: IsoDate, standard: Standard): DoseLimit {
  const { ceilingShare, matureShare, stressedShare } = standard.pruning;
  let share = ceilingShare;
  let reason = `at most ${formatShare(ceilingShare)} in 12 months`;
  if (tree.condition === "poor") {
    share = Math.min(ceilingShare, stressedShare);
    reason = `in poor condition: at most ${formatShare(share)} in 12 months`;
  } else if (isMature(tree)) {
    share = Math.min(ceilingShare, matureShare);
    reason = `mature: at most ${formatShare(share)} in 12 months`;
  }
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

export const isMature = (tree: Tree): boolean => tree.height.valueM >= MATURE_HEIGHT_SHARE * tree.traits.matureHeightM;

/** Well under its species' mature height, so that an interim lift may serve until it has grown. */
export const isYoung = (tree: Tree): boolean => tree.height.valueM < YOUNG_HEIGHT_SHARE * tree.traits.matureHeightM;
