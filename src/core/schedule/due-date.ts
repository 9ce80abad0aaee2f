import { dateOfDay, dayNumber, type IsoDate } from "../units/calendar.ts";
import type { DayWindow, SeasonWindows } from "./season-windows.ts";

/** When work is wanted, and the allowed dates around it, both inclusive. */
export interface DueDate {
  readonly due: IsoDate;
  readonly windowStart: IsoDate;
  readonly windowEnd: IsoDate;
}

/** Length in days of the window of a tree that no seasonal rule binds: a year. */
const ANY_TIME_DAYS = 365;

/** Work is not put into the last days of a window: it gets this many at least; our policy, two weeks to send a crew in. */
export const LEAST_DAYS = 14;

/** A minimum already reached in a tree that no season binds is cured within this many days; our policy. */
const REACHED_DAYS = 180;

/**
 * When work that no hazard hurries is due, from a date on. A minimum that is already reached: by the end of the window that is open and
 * has two weeks left, else of the next one.
 * One still to be reached: by the end of the last window before that date, or by that date itself where a window holds it; of the next
 * window where none comes before. Never before `from`. Null when the rules leave no window at all.
 */
export function dueDate(seasons: SeasonWindows, from: IsoDate, reachedOn: IsoDate): DueDate | null {
  const fromDay = dayNumber(from);
  const reachedDay = dayNumber(reachedOn);
  const isReached = reachedDay <= fromDay;
  if (seasons.isAnyTime) {
    if (isReached) return dates(fromDay + REACHED_DAYS - 1, fromDay, fromDay + ANY_TIME_DAYS - 1);
    return dates(reachedDay, Math.max(fromDay, reachedDay - ANY_TIME_DAYS + 1), reachedDay);
  }
  const open = windowsFrom(seasons, fromDay);
  const first = open[0];
  if (first === undefined) return null;
  let last: DayWindow | null = null;
  for (const window of open) if (window.startDay <= reachedDay) last = window;
  if (isReached || last === null) {
    const { startDay, endDay } = open.find(({ startDay, endDay }) => endDay - startDay + 1 >= LEAST_DAYS) ?? first;
    return dates(endDay, startDay, endDay);
  }
  return dates(Math.min(last.endDay, reachedDay), last.startDay, last.endDay);
}

/** The first allowed window from a date on that has at least `leastDays` left, one or more, as {@link dueDate} with its end as the due date. */
export function nextWindow(seasons: SeasonWindows, from: IsoDate, leastDays = 1): DueDate | null {
  const fromDay = dayNumber(from);
  if (seasons.isAnyTime) return dates(fromDay + ANY_TIME_DAYS - 1, fromDay, fromDay + ANY_TIME_DAYS - 1);
  // Asked for every visit on every date of a forecast, so it makes no list of windows.
  for (const { startDay, endDay } of seasons.windows) {
    const openDay = Math.max(startDay, fromDay);
    if (endDay - openDay + 1 >= leastDays) return dates(endDay, openDay, endDay);
  }
  return null;
}

/** Windows that have not ended before a day, the first cut to start there. */
function windowsFrom(seasons: SeasonWindows, fromDay: number): DayWindow[] {
  return seasons.windows
    .filter((window) => window.endDay >= fromDay)
    .map((window) => ({ startDay: Math.max(window.startDay, fromDay), endDay: window.endDay }));
}

const dates = (dueDay: number, startDay: number, endDay: number): DueDate => ({
  due: dateOfDay(Math.max(dueDay, startDay)),
  windowStart: dateOfDay(startDay),
  windowEnd: dateOfDay(endDay),
});
