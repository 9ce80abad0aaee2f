import { type LifeStage, lifeStage } from "../crown/life-stage.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, type IsoDate } from "../units/calendar.ts";
import { formatDate } from "../units/format-date.ts";
import { formatShare } from "../units/format-length.ts";

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
