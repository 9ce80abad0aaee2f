import { dateOfDay, type IsoDate, parseIsoDate } from "./calendar.ts";

/** A date as read: exact, or with the part that was filled in; or why it is none. */
export type ParsedDate =
  | { readonly date: IsoDate; readonly filledIn: "nothing" | "day" | "month-and-day" }
  | { readonly fault: "not-a-date" | "impossible" | "ambiguous" };

const DAY_MS = 86_400_000;
/** Numbers from 1973 to 2128 in milliseconds since 1970, as web feature services write dates. */
const MIN_EPOCH_MS = 1e11;
const MAX_EPOCH_MS = 5e12;

/**
 * The date that a text or number names: `2024-03-01`, `2024/03/01`, `20240301`, an ISO date-time (its date as written, whatever its
 * offset), milliseconds since 1970 (day in UTC), `3/14/2024`, `2024-03`, `2024`.
 *
 * `M/D/YYYY` is taken when one of the two passes 12, or as month first when `monthFirst` is set; else it is ambiguous. A bare year
 * becomes 1 July, a bare month its 15th, and `filledIn` says so. Two-digit years are refused. 30 February is impossible.
 */
export function parseDate(value: unknown, monthFirst: boolean): ParsedDate {
  if (typeof value === "number") {
    if (value >= MIN_EPOCH_MS && value <= MAX_EPOCH_MS) {
      return { date: dateOfDay(Math.floor(value / DAY_MS)), filledIn: "nothing" };
    }
    return Number.isInteger(value) && value >= 0 ? fromDigits(String(value)) : { fault: "not-a-date" };
  }
  if (typeof value !== "string" || value.length > 256) return { fault: "not-a-date" };
  const text = value.trim();
  if (isDigits(text)) return text.length > 10 ? parseDate(Number(text), monthFirst) : fromDigits(text);
  const parts = dateDigits(text);
  if (parts === null) return { fault: "not-a-date" };
  const [first, second, third] = parts;
  if (first!.length === 4) {
    return third === undefined ? fromParts(first!, second!, "15", "day") : fromParts(first!, second!, third, "nothing");
  }
  if (third?.length !== 4) return { fault: "not-a-date" };
  if (Number(first) > 12 && Number(second) <= 12) return fromParts(third, second!, first!, "nothing");
  if (Number(second) > 12 || first === second || monthFirst) return fromParts(third, first!, second!, "nothing");
  return { fault: "ambiguous" };
}

function fromDigits(digits: string): ParsedDate {
  if (digits.length === 4) return fromParts(digits, "07", "01", "month-and-day");
  if (digits.length === 8) return fromParts(digits.slice(0, 4), digits.slice(4, 6), digits.slice(6), "nothing");
  return { fault: "not-a-date" };
}

function fromParts(
  year: string,
  month: string,
  day: string,
  filledIn: "nothing" | "day" | "month-and-day",
): ParsedDate {
  const date = parseIsoDate(`${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`);
  return date === null ? { fault: "impossible" } : { date, filledIn };
}

/** The two or three groups of digits of a date's part of a text, all split by the same mark; null when it has another shape. */
function dateDigits(text: string): string[] | null {
  const end = ["T", "t", " "].map((mark) => text.indexOf(mark)).filter((at) => at > 0);
  const datePart = end.length > 0 ? text.slice(0, Math.min(...end)) : text;
  const mark = ["-", "/", "."].find((one) => datePart.includes(one));
  if (mark === undefined || datePart.length > 10) return null;
  const parts = datePart.split(mark);
  if (parts.length < 2 || parts.length > 3) return null;
  const fits = parts.every((part) => isDigits(part) && (part.length <= 2 || part.length === 4));
  if (!fits || (parts.length === 2 && parts[0]!.length !== 4)) return null;
  return looksLikeTime(text.slice(datePart.length)) ? parts : null;
}

const isDigits = (text: string): boolean => {
  for (let at = 0; at < text.length; at += 1) if (text.charCodeAt(at) < 48 || text.charCodeAt(at) > 57) return false;
  return text.length > 0;
};

function looksLikeTime(text: string): boolean {
  for (const letter of text) if (!"0123456789:.+-TtZz APMapm".includes(letter)) return false;
  return true;
}
