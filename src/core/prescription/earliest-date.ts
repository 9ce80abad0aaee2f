import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import type { IsoDate } from "../units/calendar.ts";
import type { DoseLimit } from "./dose-limit.ts";
import { establishedOn } from "./establishment.ts";

export interface Earliest {
  readonly date: IsoDate;
  readonly reason: string;
  /** `undated`: nobody knows whether it is a new planting. */
  readonly cause: "new-planting" | "undated" | "pruned";
}

const ROUNDING = 1e-9;

/**
 * The date before which live wood may not be taken: a new planting's establishment, or the end of the 12 months that the last pruning
 * counts in when it left less than `firstShare`. Null when neither stands in the way.
 */
export function earliestDate(
  tree: Tree,
  conflicts: readonly Conflict[],
  limit: DoseLimit,
  firstShare: number,
  standard: Standard,
  options: PlanOptions,
): Earliest | null {
  const knownSince = conflicts.reduce<IsoDate | null>(
    (first, { firstSeen }) => (first === null || firstSeen < first ? firstSeen : first),
    null,
  );
  const established = establishedOn(tree, options.place, standard, options.asOf, knownSince);
  const fresh = limit.freshOn !== null && firstShare > limit.leftShare + ROUNDING ? limit.freshOn : null;
  if (established !== null && (fresh === null || established >= fresh)) {
    return tree.planted === null
      ? { date: established, reason: "no planting date is known, and it may be new", cause: "undated" }
      : { date: established, reason: "newly planted, not yet established", cause: "new-planting" };
  }
  return fresh === null ? null : { date: fresh, reason: "pruned less than 12 months ago", cause: "pruned" };
}
