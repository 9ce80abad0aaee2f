import { isYoung } from "../crown/life-stage.ts";
import type { Visit } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addMonths, dayNumber, type IsoDate, yearsBetween } from "../units/calendar.ts";
import { LEAST_DAYS, nextWindow } from "./due-date.ts";
import type { SeasonWindows } from "./season-windows.ts";

/** Visits nearer together than this are one: a growing season lies between two doses. */
const APART_DAYS = 365;

/**
 * The dates on which a young tree's structural pruning comes round again after the plan's own: every training cycle (standard), in the first window from
 * then on, until it is as old or, at its species' growth, as tall as training ends, or no later than `endsOn`. Where another visit is expected
 * within a year of such a date, training goes along with it and has no date of its own.
 */
export function trainingDates(
  tree: Tree,
  visits: readonly Visit[],
  others: readonly IsoDate[],
  windows: SeasonWindows,
  asOf: IsoDate,
  endsOn: IsoDate,
  standard: Standard,
): IsoDate[] {
  const { training } = standard.pruning;
  const planned = plannedTraining(visits);
  if (training === null || planned === null) return [];
  const found: IsoDate[] = [];
  let last = planned.due;
  for (;;) {
    const next = addMonths(last, Math.round(12 * training.cycleYears));
    const when = nextWindow(windows, next, LEAST_DAYS);
    if (when === null || when.due > endsOn || !isTrainedOn(tree, next, asOf, standard)) return found;
    const along = others.find((due) => due > last && Math.abs(dayNumber(due) - dayNumber(when.due)) < APART_DAYS);
    if (along === undefined) found.push(when.due);
    last = along ?? when.due;
  }
}

/** The last of the plan's visits that trains the tree; null without one. */
export const plannedTraining = (visits: readonly Visit[]): Visit | null =>
  visits.findLast(({ tasks }) => tasks.some(({ taskId }) => taskId.endsWith("/training"))) ?? null;

/** Whether the tree, then, is neither too old nor too tall to be trained. */
function isTrainedOn(tree: Tree, date: IsoDate, asOf: IsoDate, { pruning: { training } }: Standard): boolean {
  if (training === null) return false;
  if (tree.planted !== null && date >= addMonths(tree.planted, Math.round(12 * training.untilYears))) return false;
  const { heightGrowthMPerYear, matureHeightM } = tree.traits;
  const heightM = Math.min(matureHeightM, tree.height.valueM + heightGrowthMPerYear * yearsBetween(asOf, date));
  return heightM <= training.untilHeightM && isYoung(tree, heightM);
}
