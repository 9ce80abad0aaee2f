import type { Visit } from "../../core/model/prescription.ts";
import { CREWS, type Crew, URGENCIES, type Urgency } from "../../core/model/terms.ts";
import { addMonths, type IsoDate } from "../../core/units/calendar.ts";

/** A calendar month, `YYYY-MM`; months compare as texts. */
export type Month = string;

/** From one month to another, both included. */
export interface MonthRange {
  readonly from: Month;
  readonly to: Month;
}

/** Work due in one month. */
export interface MonthBar {
  readonly month: Month;
  readonly visits: number;
  readonly hours: number;
  readonly hoursBy: Readonly<Record<Urgency, number>>;
  readonly hoursByCrew: Readonly<Record<Crew, number>>;
}

/** Fewest and most months shown: a year, and the ten years a plan looks ahead. */
const FEWEST_MONTHS = 12;
const MOST_MONTHS = 120;

export const monthOf = (date: IsoDate): Month => date.slice(0, 7);

/** The month a visit counts in: that of its due date, or the plan's first month when it was due before. */
export function dueMonth(visit: Pick<Visit, "due">, asOf: IsoDate): Month {
  return monthOf(visit.due < asOf ? asOf : visit.due);
}

/** Whether a visit counts in one of the months of a range; null is every month. */
export function isDueIn(visit: Pick<Visit, "due">, range: MonthRange | null, asOf: IsoDate): boolean {
  if (range === null) return true;
  const month = dueMonth(visit, asOf);
  return month >= range.from && month <= range.to;
}

/**
 * Work hours by due month, urgency and crew, from the month of `asOf` to the last one with work: at least a year, at most ten. Visits
 * due before `asOf` count in its month. Months without work are there with zero hours; `others` are months that must be there too.
 */
export function monthBars(visits: Iterable<Visit>, asOf: IsoDate, others: readonly Month[] = []): MonthBar[] {
  const sums = new Map<Month, MonthSum>();
  let last = monthOf(asOf);
  for (const month of others) if (month > last) last = month;
  for (const visit of visits) {
    const month = dueMonth(visit, asOf);
    const sum = sums.get(month) ?? nothingDue();
    sum.visits += 1;
    sum.hoursBy[visit.urgency] += visit.hours;
    sum.hoursByCrew[visit.crew] += visit.hours;
    sums.set(month, sum);
    if (month > last) last = month;
  }
  const start = `${monthOf(asOf)}-01` as IsoDate;
  const bars: MonthBar[] = [];
  for (let step = 0; step < MOST_MONTHS; step += 1) {
    const month = monthOf(addMonths(start, step));
    if (step >= FEWEST_MONTHS && month > last) break;
    const sum = sums.get(month) ?? nothingDue();
    bars.push({ month, ...sum, hours: URGENCIES.reduce((hours, key) => hours + sum.hoursBy[key], 0) });
  }
  return bars;
}

interface MonthSum {
  visits: number;
  readonly hoursBy: Record<Urgency, number>;
  readonly hoursByCrew: Record<Crew, number>;
}

const nothingDue = (): MonthSum => ({ visits: 0, hoursBy: noHours(URGENCIES), hoursByCrew: noHours(CREWS) });

const noHours = <K extends string>(keys: readonly K[]): Record<K, number> =>
  Object.fromEntries(keys.map((key) => [key, 0])) as Record<K, number>;
