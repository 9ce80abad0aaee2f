/** A calendar date `YYYY-MM-DD`. The core knows no clock and no time zone: every date comes from outside or from another date. */
export type IsoDate = string & { readonly __isoDate: true };

const DAY_MS = 86_400_000;

/**
 * The date a text names, or null when it is not a real calendar date in the form `YYYY-MM-DD`.
 * 30 February is refused, not moved into March.
 */
export function parseIsoDate(text: string): IsoDate | null {
  if (text.length !== 10 || text[4] !== "-" || text[7] !== "-") return null;
  for (const at of [0, 1, 2, 3, 5, 6, 8, 9]) {
    const code = text.charCodeAt(at);
    if (code < 48 || code > 57) return null;
  }
  const year = Number(text.slice(0, 4));
  const month = Number(text.slice(5, 7));
  const day = Number(text.slice(8, 10));
  if (year < 1000 || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  return text as IsoDate;
}

/** Days in a month (1 to 12) of the Gregorian calendar. */
export function daysInMonth(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** The date itself; throws RangeError when the text is not one. For constants and trusted options. */
export function isoDate(text: string): IsoDate {
  const date = parseIsoDate(text);
  if (date === null) throw new RangeError(`Expected a date YYYY-MM-DD, got "${text.slice(0, 40)}"`);
  return date;
}

/** Days from 1 March 0000 of the Gregorian calendar to 1970-01-01, and in its cycle of 400 years. */
const DAYS_BEFORE_1970 = 719_468;
const DAYS_IN_CYCLE = 146_097;

/** Whole days since 1970-01-01. Years that begin in March have their odd day last, and months of 153 days in five (H. Hinnant, days_from_civil). */
export function dayNumber(date: IsoDate): number {
  const month = twoDigits(date, 5);
  const isBeforeMarch = month <= 2;
  const year = twoDigits(date, 0) * 100 + twoDigits(date, 2) - (isBeforeMarch ? 1 : 0);
  const cycle = Math.floor(year / 400);
  const ofCycle = year - cycle * 400;
  const dayOfYear = Math.floor((153 * (month + (isBeforeMarch ? 9 : -3)) + 2) / 5) + twoDigits(date, 8) - 1;
  const leapDays = Math.floor(ofCycle / 4) - Math.floor(ofCycle / 100);
  return cycle * DAYS_IN_CYCLE + ofCycle * 365 + leapDays + dayOfYear - DAYS_BEFORE_1970;
}

/** The date of a day number; fractions are cut off toward the earlier day. The way back of {@link dayNumber} (civil_from_days). */
export function dateOfDay(day: number): IsoDate {
  const days = Math.floor(day) + DAYS_BEFORE_1970;
  const cycle = Math.floor(days / DAYS_IN_CYCLE);
  const ofCycle = days - cycle * DAYS_IN_CYCLE;
  const yearOfCycle = Math.floor(
    (ofCycle - Math.floor(ofCycle / 1460) + Math.floor(ofCycle / 36_524) - Math.floor(ofCycle / 146_096)) / 365,
  );
  const dayOfYear = ofCycle - (365 * yearOfCycle + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100));
  const fromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  const year = yearOfCycle + cycle * 400 + (month <= 2 ? 1 : 0);
  // Years of other lengths, and no number at all, are for the language's own dates to write or refuse.
  if (!(year >= 1000 && year <= 9999)) return new Date(Math.floor(day) * DAY_MS).toISOString().slice(0, 10) as IsoDate;
  const dayOfMonth = dayOfYear - Math.floor((153 * fromMarch + 2) / 5) + 1;
  return `${year}-${month < 10 ? "0" : ""}${month}-${dayOfMonth < 10 ? "0" : ""}${dayOfMonth}` as IsoDate;
}

const twoDigits = (text: string, at: number): number => (text.charCodeAt(at) - 48) * 10 + text.charCodeAt(at + 1) - 48;

export const addDays = (date: IsoDate, days: number): IsoDate => dateOfDay(dayNumber(date) + days);

/** The same day some months later; the 31st becomes the last day of a shorter month. */
export function addMonths(date: IsoDate, months: number): IsoDate {
  const total = Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7)) - 1 + months;
  const year = Math.floor(total / 12);
  const month = (total % 12) + 1;
  const day = Math.min(Number(date.slice(8, 10)), daysInMonth(year, month));
  return `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}` as IsoDate;
}

export const yearOf = (date: IsoDate): number => Number(date.slice(0, 4));
/** Years from one date to another, as days over 365.25. */
export const yearsBetween = (from: IsoDate, to: IsoDate): number => (dayNumber(to) - dayNumber(from)) / 365.25;
