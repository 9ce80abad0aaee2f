import type { ConflictRecord } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Prescription, Visit } from "../model/prescription.ts";
import type { Urgency } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate } from "../units/calendar.ts";
import type { DoneVisit } from "./crown-on-date.ts";
import type { ForecastVisit } from "./forecast-visits.ts";
import { hazardDeadline } from "./hazard-deadline.ts";
import type { SeasonWindows } from "./season-windows.ts";
import { mostUrgent, treeUrgency, type UrgencyCase, urgencyByDate, visitUrgency } from "./urgency.ts";

/** What is taken of the work to come: every visit is done when it is due, or none is. */
export const WORLDS = ["as-planned", "nothing-done"] as const;
export type World = (typeof WORLDS)[number];

/** A visit not done by a date, with its urgency on that date. */
export interface VisitAhead extends Omit<ForecastVisit, "personHours"> {
  readonly urgency: Urgency;
  /** Whether its due date has passed. */
  readonly overdue: boolean;
  /** The plan's own visit; null for a forecast one. */
  readonly visit: Visit | null;
}

/** How a tree stands on a date. */
export interface TreeOnDate {
  readonly urgency: Urgency;
  readonly overdue: boolean;
  /** The visits not done, the next one first: those of the plan, then what is forecast. */
  readonly ahead: readonly VisitAhead[];
  /** The visits done, in order. */
  readonly done: readonly DoneVisit[];
  /** Conflicts that visits worked on. */
  readonly workedIds: ReadonlySet<string>;
}

/** One tree with all that its future depends on. */
export interface TreeAhead {
  readonly prescription: Prescription;
  /** All its conflicts, whatever their certainty. */
  readonly conflicts: readonly ConflictRecord[];
  /** Its forecast visits beyond the plan's own, by date. */
  readonly forecast: readonly ForecastVisit[];
  readonly seasons: SeasonWindows;
  readonly isChecked: boolean;
  readonly standard: Standard;
  /** Those of the plan, with its as-of date. */
  readonly options: PlanOptions;
  /** End of the next allowed window from the date asked for; null for none. */
  readonly nextEnd: IsoDate | null;
}

/**
 * A tree on a date, by the rules that date the plan, asked anew for that date. As planned, a visit is done once its due date has passed; with
 * nothing done, what was due is overdue and every minimum that growth reaches is open. On the as-of date both are the plan itself.
 *
 * Hazards are those measured on the as-of date: what growth makes a hazard later shows as a reached minimum. Nothing breaks, dies or is planted.
 */
export function treeOnDate(tree: TreeAhead, date: IsoDate, world: World): TreeOnDate {
  const { prescription, conflicts, forecast, options, standard } = tree;
  const isDone = ({ due }: { readonly due: IsoDate }) => world === "as-planned" && notBefore(due, options.asOf) < date;
  const planned = prescription.visits.filter((visit) => !isDone(visit));
  const doneOfPlan = prescription.visits.filter(isDone);
  const doneLater = forecast.filter(isDone);
  const clearedLater = doneLater.filter(({ cause }) => cause !== "training");
  const workedIds = workedBy(doneOfPlan, clearedLater.length > 0 ? conflicts : [], options.asOf);
  const open = conflicts.filter(({ conflictId }) => !workedIds.has(conflictId));
  const { seasons, isChecked, nextEnd } = tree;
  const onDate = { draft: prescription, seasons, isChecked, standard, nextEnd, options: { ...options, asOf: date } };
  const given: UrgencyCase = { ...onDate, all: open };
  const whole: UrgencyCase = { ...onDate, all: conflicts };
  const ahead = planned.map((visit, at) => plannedAhead(visit, at, planned, whole));
  for (const visit of forecast) if (isAhead(visit, date, world)) ahead.push(forecastAhead(visit, given));
  const sure = open.filter(({ certainty }) => certainty !== "possible");
  const deadline = hazardDeadline(sure, standard);
  // What is forecast weighs beside the plan's own work only once that has begun: until then the plan has judged it.
  const isBegun = doneOfPlan.length + doneLater.length > 0;
  const weighed = ahead.filter(({ visit, urgency }) => visit !== null || isBegun || urgency === "next-window");
  const urgencies = weighed.map(({ urgency, visit }) => ({ urgency, tasks: visit?.tasks ?? [] }));
  const wearsOff = isBegun && ahead.length === 0 ? lastWearsOff(tree, doneOfPlan, clearedLater) : null;
  if (wearsOff !== null) urgencies.push({ urgency: urgencyByDate(wearsOff, standard, given.options), tasks: [] });
  return {
    urgency: deadline === null ? treeUrgency(given, urgencies) : "now",
    overdue: (deadline !== null && deadline < date) || ahead.some(({ overdue }) => overdue),
    ahead,
    done: [
      ...doneOfPlan.map(({ due, tasks }) => ({ on: notBefore(due, options.asOf), tasks })),
      ...doneLater.map(({ due, cause }) => ({ on: due, tasks: cause === "training" ? [] : null })),
    ],
    workedIds,
  };
}

const notBefore = (date: IsoDate, first: IsoDate): IsoDate => (date >= first ? date : first);

/** Conflicts that the visits work on; a visit that is forecast clears whatever has grown in beyond the plan as well. */
function workedBy(visits: readonly Visit[], later: readonly ConflictRecord[], asOf: IsoDate): Set<string> {
  const worked = new Set(visits.flatMap(({ tasks }) => tasks.flatMap(({ conflictIds }) => conflictIds)));
  for (const { conflictId, certainty, reachedOn } of later) {
    if (certainty !== "possible" && reachedOn > asOf) worked.add(conflictId);
  }
  return worked;
}

/** A visit of the plan never gets less urgent while it waits. */
function plannedAhead(visit: Visit, at: number, planned: readonly Visit[], given: UrgencyCase): VisitAhead {
  const conflictIds = visit.tasks.flatMap((task) => task.conflictIds);
  const isAside = (one: Visit) => one.tasks.every(({ timing }) => timing === "any-time");
  const isNext = visit.windowStart <= given.options.asOf && planned.slice(0, at).every(isAside);
  const timing = isAside(visit) && visit.tasks.length > 0 ? "any-time" : "window";
  const { treeId, treeRow, due, crew, hours, doseShare } = visit;
  return {
    treeId,
    treeRow,
    cause: "planned",
    due,
    crew,
    hours,
    doseShare,
    visit,
    urgency: mostUrgent([visit.urgency, visitUrgency(given, { conflictIds, timing }, due, isNext)]),
    overdue: due < given.options.asOf,
  };
}

function forecastAhead(visit: ForecastVisit, given: UrgencyCase): VisitAhead {
  const urgency = visitUrgency(given, { conflictIds: [], timing: "window" }, visit.due, false);
  return { ...visit, visit: null, urgency, overdue: visit.due < given.options.asOf };
}

/** Whether a forecast visit is still to come; without any work there is nothing to return to. */
const isAhead = ({ cause, due }: ForecastVisit, date: IsoDate, world: World): boolean =>
  world === "nothing-done" ? cause !== "return" : due >= date;

/** When the cure of the last clearance wears off, where that lies beyond the forecast; null where nothing was cleared. */
function lastWearsOff(
  { prescription, standard }: TreeAhead,
  done: readonly Visit[],
  later: readonly ForecastVisit[],
): IsoDate | null {
  const cleared = done.filter(({ tasks }) => tasks.some(({ conflictIds }) => conflictIds.length > 0));
  const last = later.at(-1)?.due ?? cleared.at(-1)?.due;
  if (last === undefined) return null;
  const option = prescription.chosen === null ? undefined : prescription.options[prescription.chosen];
  const lastsYears = Math.max(1, option?.lastsYears ?? standard.pruning.cycleYears);
  return addDays(last, Math.round(lastsYears * 365.25));
}
