import { findConflicts } from "./conflict/find-conflicts.ts";
import { grownTree } from "./crown/grown-tree.ts";
import type { PlanOptions } from "./model/plan.ts";
import type { Prescription } from "./model/prescription.ts";
import { treeTable } from "./model/tree-table.ts";
import type { Tree } from "./model/trees.ts";
import { prescribe } from "./prescription/prescribe.ts";
import { schedule } from "./schedule/schedule.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import { addDays, type IsoDate } from "./units/calendar.ts";

/** What the clearance of the same trees takes, now or after waiting. */
export interface ClearanceWork {
  readonly visits: number;
  readonly hours: number;
  /** Sum over the trees of the share of live crown taken, in crowns. */
  readonly crowns: number;
  readonly referred: number;
}

/** The price of doing nothing for a pruning cycle, for the trees that the plan clears. */
export interface CostOfWaiting {
  readonly years: number;
  readonly trees: number;
  readonly now: ClearanceWork;
  readonly later: ClearanceWork;
  /** Trees that the plan can clear and that must be referred after waiting, in tree order. */
  readonly nowPrunableLaterReferred: readonly string[];
}

/**
 * What slipping the whole plan by a pruning cycle costs: the trees grow on unpruned, conflicts are measured and pruned for anew at the later date,
 * and the same trees are compared. Growth as in the forecasts: wider by the species' rate, taller up to its mature height, low limbs
 * drooping by the standard's policy. Surroundings stay; nothing is assumed to break, die or be planted.
 */
export function costOfWaiting(
  trees: readonly Tree[],
  prescriptions: readonly Prescription[],
  surroundings: Surroundings,
  standard: Standard,
  options: PlanOptions,
  firstSeen: ReadonlyMap<string, IsoDate>,
): CostOfWaiting {
  const years = standard.pruning.cycleYears;
  const later: PlanOptions = { ...options, asOf: addDays(options.asOf, Math.round(years * 365.25)) };
  const grown = trees.map((tree) => grownTree(tree, years, standard.pruning.droopMPerYear));
  const measured = findConflicts(treeTable(grown), surroundings, standard, later, firstSeen);
  const drafts = prescribe(grown, measured.conflicts, measured.settings, standard, later);
  const after = schedule(grown, drafts, measured.conflicts, measured.settings, standard, later);
  const rows = prescriptions.filter(isCleared).map(({ treeRow }) => treeRow);
  return {
    years,
    trees: rows.length,
    now: workOf(rows, prescriptions),
    later: workOf(rows, after),
    nowPrunableLaterReferred: rows
      .filter((row) => prescriptions[row]!.refer === null && after[row]!.refer !== null)
      .map((row) => trees[row]!.id),
  };
}

const isCleared = ({ chosen, visits }: Prescription): boolean => chosen !== null && visits.length > 0;

function workOf(rows: readonly number[], prescriptions: readonly Prescription[]): ClearanceWork {
  const all = rows.map((row) => prescriptions[row]!);
  const visits = all.flatMap((prescription) => prescription.visits);
  return {
    visits: visits.length,
    hours: visits.reduce((sum, { hours }) => sum + hours, 0),
    crowns: visits.reduce((sum, { doseShare }) => sum + doseShare, 0),
    referred: all.filter(({ refer }) => refer !== null).length,
  };
}
