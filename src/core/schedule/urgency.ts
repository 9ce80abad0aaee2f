import type { PlanOptions } from "../model/plan.ts";
import type { Visit } from "../model/prescription.ts";
import { URGENCIES, type Urgency } from "../model/terms.ts";
import type { Stage } from "../prescription/prescription-draft.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate } from "../units/calendar.ts";
import { LEAST_DAYS, nextWindow } from "./due-date.ts";
import type { TreeCase } from "./tree-case.ts";

/**
 * Urgency of a visit that no hazard hurries: `next-window` for the next visit where a minimum is reached already, for remedial work,
 * and for what is due by the end of the next allowed window; else by its due date.
 */
export function visitUrgency(given: TreeCase, stage: Stage, due: IsoDate, isNext: boolean): Urgency {
  const { all, seasons, options, standard } = given;
  const isReached = all.some(
    (conflict) => stage.conflictIds.includes(conflict.conflictId) && conflict.reachedOn <= options.asOf,
  );
  const next = nextWindow(seasons, options.asOf, LEAST_DAYS);
  if ((isNext && isReached) || stage.timing === "any-time" || (next !== null && due <= next.due)) return "next-window";
  return urgencyByDate(due, standard, options);
}

/** Referrals that are about the tree itself, whatever stands around it. */
const ABOUT_THE_TREE: readonly string[] = ["dead", "assess-decay", "strike-with-defect"];

/**
 * Urgency of a tree without a running deadline: that of its visits, of what is left unprescribed where there are none or where it is
 * referred, and `next-window` for a dead or decayed one; `clear` only if all was checked.
 */
export function treeUrgency(given: TreeCase, visits: readonly Visit[]): Urgency {
  const { draft, all, isChecked, standard, options } = given;
  const { refer } = draft;
  const urgencies = visits.map((visit) => visit.urgency);
  if (refer !== null && (all.length === 0 || ABOUT_THE_TREE.includes(refer.code))) urgencies.push("next-window");
  if (refer !== null || visits.length === 0) {
    const worked = new Set(visits.flatMap((visit) => visit.tasks.flatMap((task) => task.conflictIds)));
    for (const { conflictId, reachedOn } of all) {
      if (worked.has(conflictId)) continue;
      urgencies.push(reachedOn <= options.asOf ? "next-window" : urgencyByDate(reachedOn, standard, options));
    }
  }
  if (urgencies.length > 0) return mostUrgent(urgencies);
  return isChecked ? "clear" : "watch";
}

/** Within the cycle, or later; what lies beyond two cycles is no conflict and not asked for. */
const urgencyByDate = (date: IsoDate, standard: Standard, options: PlanOptions): Urgency =>
  date <= addDays(options.asOf, Math.round(standard.pruning.cycleYears * 365.25)) ? "this-cycle" : "watch";

const mostUrgent = (urgencies: readonly Urgency[]): Urgency =>
  URGENCIES[urgencies.reduce((first, urgency) => Math.min(first, URGENCIES.indexOf(urgency)), URGENCIES.length - 1)]!;
