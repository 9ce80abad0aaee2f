import { dateOfDay, type IsoDate } from "../units/calendar.ts";

const DAYS_PER_YEAR = 365.25;

/**
 * The first date, to the day, on which a condition that stays once it has come holds; the as-of date when it holds then, null when it does
 * not hold at the horizon. `holds` is asked at years from the as-of date.
 */
export function dateReached(asOfDay: number, horizonYears: number, holds: (years: number) => boolean): IsoDate | null {
  if (holds(0)) return dateOfDay(asOfDay);
  let high = Math.floor(horizonYears * DAYS_PER_YEAR);
  if (!holds(high / DAYS_PER_YEAR)) return null;
  let low = 0;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (holds(middle / DAYS_PER_YEAR)) high = middle;
    else low = middle;
  }
  return dateOfDay(asOfDay + high);
}

/** The last date of the horizon. */
export const horizonDate = (asOfDay: number, horizonYears: number): IsoDate =>
  dateOfDay(asOfDay + Math.floor(horizonYears * DAYS_PER_YEAR));
