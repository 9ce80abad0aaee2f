import type { ConflictRecord } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Visit } from "../model/prescription.ts";
import { URGENCIES, type Urgency } from "../model/terms.ts";
import type { Stage } from "../prescription/prescription-draft.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate } from "../units/calendar.ts";
import { LEAST_DAYS, nextWindow } from "./due-date.ts";
import type { SeasonWindows } from "./season-windows.ts";
import type { TreeCase } from "./tree-case.ts";

/** What urgencies depend on, beside the visits: a {@link TreeCase} without what only dates need. */
export interface UrgencyCase extends Pick<TreeCase, "seasons" | "isChecked" | "standard" | "options"> {
  /** All its conflicts, whatever their certainty. */
  readonly all: readonly ConflictRecord[];
  readonly draft: Pick<TreeCase["draft"], "refer">;
  /** End of the next allowed window from the as-of date, null for none, where the caller has found it already. */
  readonly nextEnd?: IsoDate | null;
}

/**
 * Urgency of a visit that no hazard hurries: `next-window` for the next visit where a minimum is reached already, for remedial work,
 * and for what is due by the end of the next allowed window; else by its due date.
 */
export function visitUrgency(
  given: UrgencyCase,
  stage: Pick<Stage, "conflictIds" | "timing">,
  due: IsoDate,
  isNext: boolean,
): Urgency {
  const { all, seasons, options, standard } = given;
  const isReached = all.some(
    (conflict) => stage.conflictIds.includes(conflict.conflictId) && conflict.reachedOn <= options.asOf,
  );
  const nextEnd = given.nextEnd === undefined ? endOfNextWindow(seasons, options.asOf) : given.nextEnd;
  if ((isNext && isReached) || stage.timing === "any-time" || (nextEnd !== null && due <= nextEnd))
    return "next-window";
  return urgencyByDate(due, standard, options);
}

/** The last day of the next window that has time enough for work to be put into it; null for none. */
export const endOfNextWindow = (seasons: SeasonWindows, from: IsoDate): IsoDate | null =>
  nextWindow(seasons, from, LEAST_DAYS)?.due ?? null;

/** Referrals that are about the tree itself, whatever stands around it. */
const ABOUT_THE_TREE: readonly string[] = ["dead", "assess-decay", "strike-with-defect"];

/**
 * Urgency of a tree without a running deadline: that of its visits, of what is left unprescribed where there are none or where it is
 * referred, and `next-window` for a dead or decayed one; `clear` only if all was checked.
 */
export function treeUrgency(given: UrgencyCase, visits: readonly Pick<Visit, "urgency" | "tasks">[]): Urgency {
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
export const urgencyByDate = (date: IsoDate, standard: Standard, options: PlanOptions): Urgency =>
  date <= addDays(options.asOf, Math.round(standard.pruning.cycleYears * 365.25)) ? "this-cycle" : "watch";

export const mostUrgent = (urgencies: readonly Urgency[]): Urgency =>
  URGENCIES[urgencies.reduce((first, urgency) => Math.min(first, URGENCIES.indexOf(urgency)), URGENCIES.length - 1)]!;
