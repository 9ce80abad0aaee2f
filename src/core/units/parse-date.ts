import { dateOfDay, type IsoDate, parseIsoDate } from "./calendar.ts";

/** What of a date the text left out. */
export type FilledIn = "nothing" | "day" | "month-and-day" | "century";

/** A date as read: exact, or with the part that was filled in; or why it is none. */
export type ParsedDate =
  | { readonly date: IsoDate; readonly filledIn: FilledIn }
  | { readonly fault: "not-a-date" | "impossible" | "ambiguous" };

const DAY_MS = 86_400_000;
/** Numbers from 1973 to 2128 in milliseconds since 1970, as web feature services write dates. */
const MIN_EPOCH_MS = 1e11;
const MAX_EPOCH_MS = 5e12;

/** Which of two numbers before a year is the month. */
export type DateOrder = "month-first" | "day-first";

/**
 * The date that a text or number names: `2024-03-01`, `2024/03/01`, `20240301`, an ISO date-time (its date as written, whatever its
 * offset), milliseconds since 1970 (day in UTC), `3/14/2024`, `3/14/24`, `14.3.2024`, `14 March 2024`, `Mar 14, 2024`, `March 2024`, `2024-03`, `2024`.
 *
 * `M/D/YYYY` is taken when one of the two passes 12, or in the `order` given; with points between, the day comes first where no order is
 * given (the usage of the countries that write so); else it is ambiguous. Two-digit years after a slash or point are 1969 to 2068 (POSIX
 * strptime, from memory). A bare year becomes 1 July, a bare month its 15th, and `filledIn` says so. 30 February is impossible.
 */
export function parseDate(value: unknown, order: DateOrder | null): ParsedDate {
  if (typeof value === "number") {
    if (value >= MIN_EPOCH_MS && value <= MAX_EPOCH_MS) {
      return { date: dateOfDay(Math.floor(value / DAY_MS)), filledIn: "nothing" };
    }
    return Number.isInteger(value) && value >= 0 ? fromDigits(String(value)) : { fault: "not-a-date" };
  }
  if (typeof value !== "string" || value.length > 256) return { fault: "not-a-date" };
  const text = value.trim();
  if (isDigits(text)) return text.length > 10 ? parseDate(Number(text), order) : fromDigits(text);
  const split = dateDigits(text);
  if (split === null) return fromWords(text);
  const [first, second, third] = split.parts as [string, string, string | undefined];
  if (first.length === 4) {
    return third === undefined ? fromParts(first, second, "15", "day") : fromParts(first, second, third, "nothing");
  }
  const year = third === undefined ? null : yearOf(third, split.mark);
  if (year === null) return { fault: "not-a-date" };
  const filledIn = third?.length === 2 ? "century" : "nothing";
  if (Number(first) > 12 && Number(second) <= 12) return fromParts(year, second, first, filledIn);
  if (Number(second) > 12 || first === second || order === "month-first") {
    return fromParts(year, first, second, filledIn);
  }
  if (order === "day-first" || split.mark === ".") return fromParts(year, second, first, filledIn);
  return { fault: "ambiguous" };
}

/**
 * The order that a text itself proves, by a number over 12 in one of the two places; null when it proves none.
 */
export function provenOrder(value: unknown): DateOrder | null {
  if (typeof value !== "string" || value.length > 256) return null;
  const [first, second, third] = dateDigits(value.trim())?.parts ?? [];
  if (first === undefined || second === undefined || third === undefined || first.length === 4) return null;
  const [one, other] = [Number(first), Number(second)];
  if (one > 12 && one <= 31 && other <= 12) return "day-first";
  return other > 12 && other <= 31 && one <= 12 ? "month-first" : null;
}

function yearOf(digits: string, mark: string): string | null {
  if (digits.length === 4) return digits;
  if (digits.length !== 2 || mark === "-") return null;
  return String(Number(digits) + (Number(digits) < FIRST_YEAR_OF_1900S ? 2000 : 1900));
}

/** Two-digit years from here on are of the 20th century. */
const FIRST_YEAR_OF_1900S = 69;
const MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const MONTH_NAMES: ReadonlyMap<string, number> = new Map([
  ...MONTHS.map((name, at) => [name, at + 1] as const),
  ...["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november"].map(
    (name, at) => [name, at + 1] as const,
  ),
  ["december", 12],
  ["sept", 9],
]);

/** `14 March 2024`, `14-Mar-2024`, `Mar 14, 2024`, `March 14th 2024`, `March 2024`; months in English. */
function fromWords(text: string): ParsedDate {
  if (text.length > 40) return { fault: "not-a-date" };
  const words = text
    .toLowerCase()
    .split(/[ ,./-]/)
    .filter((word) => word !== "");
  const month = words.map((word) => MONTH_NAMES.get(word)).find((number) => number !== undefined);
  const others = words
    .filter((word) => !MONTH_NAMES.has(word))
    .map((word) => word.replace(/^(\d+)(st|nd|rd|th)$/, "$1"));
  if (month === undefined || others.length !== words.length - 1 || !others.every(isDigits))
    return { fault: "not-a-date" };
  const year = others.find((word) => word.length === 4);
  const days = others.filter((word) => word !== year);
  if (year === undefined || days.length > 1 || (days[0] ?? "").length > 2) return { fault: "not-a-date" };
  return fromParts(year, String(month), days[0] ?? "15", days.length === 0 ? "day" : "nothing");
}

function fromDigits(digits: string): ParsedDate {
  if (digits.length === 4) return fromParts(digits, "07", "01", "month-and-day");
  if (digits.length === 8) return fromParts(digits.slice(0, 4), digits.slice(4, 6), digits.slice(6), "nothing");
  return { fault: "not-a-date" };
}

function fromParts(year: string, month: string, day: string, filledIn: FilledIn): ParsedDate {
  const date = parseIsoDate(`${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`);
  return date === null ? { fault: "impossible" } : { date, filledIn };
}

/** The two or three groups of digits of a date's part of a text, all split by the same mark; null when it has another shape. */
function dateDigits(text: string): { parts: string[]; mark: string } | null {
  const end = ["T", "t", " "].map((mark) => text.indexOf(mark)).filter((at) => at > 0);
  const datePart = end.length > 0 ? text.slice(0, Math.min(...end)) : text;
  const mark = ["-", "/", "."].find((one) => datePart.includes(one));
  if (mark === undefined || datePart.length > 10) return null;
  const parts = datePart.split(mark);
  if (parts.length < 2 || parts.length > 3) return null;
  const fits = parts.every((part) => isDigits(part) && (part.length <= 2 || part.length === 4));
  if (!fits || (parts.length === 2 && parts[0]!.length !== 4)) return null;
  return looksLikeTime(text.slice(datePart.length)) ? { parts, mark } : null;
}

const isDigits = (text: string): boolean => {
  for (let at = 0; at < text.length; at += 1) if (text.charCodeAt(at) < 48 || text.charCodeAt(at) > 57) return false;
  return text.length > 0;
};

function looksLikeTime(text: string): boolean {
  for (const letter of text) if (!"0123456789:.+-TtZz APMapm".includes(letter)) return false;
  return true;
}
