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

/**
 * When work that no hazard hurries is due, from a date on: inside an allowed window, the earlier of its end and the date on which the
 * minimum is reached; else the end of the last window before that date (that date itself where a window holds it); else the end of the
 * next window. Never before `from`. Null when the rules leave no window at all.
 *
 * `waits` skips the window that is open now unless it is the last: for trees with nothing to cut yet.
 */
export function dueDate(seasons: SeasonWindows, from: IsoDate, reachedOn: IsoDate, waits: boolean): DueDate | null {
  const fromDay = dayNumber(from);
  const reachedDay = Math.max(fromDay, dayNumber(reachedOn));
  if (seasons.isAnyTime) {
    const startDay = waits ? Math.max(fromDay, reachedDay - ANY_TIME_DAYS + 1) : fromDay;
    const endDay = startDay + ANY_TIME_DAYS - 1;
    return dates(Math.min(endDay, reachedDay), startDay, endDay);
  }
  const open = windowsFrom(seasons, fromDay);
  const first = open[0];
  if (first === undefined) return null;
  const isOpenNow = first.startDay <= fromDay;
  if (isOpenNow && !waits) return dates(Math.min(first.endDay, reachedDay), first.startDay, first.endDay);
  let last: DayWindow | null = null;
  for (const window of open) {
    if (window.startDay <= reachedDay) last = window;
  }
  if (last === null) return dates(first.endDay, first.startDay, first.endDay);
  return dates(Math.min(last.endDay, reachedDay), last.startDay, last.endDay);
}

/** The first allowed window from a date on that has at least `leastDays` left, as {@link dueDate} with its end as the due date. */
export function nextWindow(seasons: SeasonWindows, from: IsoDate, leastDays = 1): DueDate | null {
  const fromDay = dayNumber(from);
  if (seasons.isAnyTime) return dates(fromDay + ANY_TIME_DAYS - 1, fromDay, fromDay + ANY_TIME_DAYS - 1);
  const first = windowsFrom(seasons, fromDay).find(({ startDay, endDay }) => endDay - startDay + 1 >= leastDays);
  return first === undefined ? null : dates(first.endDay, first.startDay, first.endDay);
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
