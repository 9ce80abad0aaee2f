import type { ColumnUnit } from "../model/column-map.ts";
import { parseLengthM } from "./parse-length.ts";

/** A length as a class gives it: an interval and the value taken for it. */
export interface LengthRange {
  readonly valueM: number;
  readonly lowM: number;
  readonly highM: number;
}

/** What an open class `over X` is taken to end at, as a multiple of X; our policy. */
const OPEN_END = 1.5;
const MAX_TEXT = 256;
const DASHES = ["-", "–", "—", "‒"];
const OVER = ["greater than", "more than", "over", "above", "at least", ">=", "≥", ">"];
const UNDER = ["less than", "up to", "under", "below", "at most", "<=", "≤", "<"];

/**
 * The interval in meters that a class names: `10-20 ft`, `6" - 12"`, `6-12"`, `10 to 20`, `> 30 cm`, `30+ ft`, `under 10 m`; or null when
 * the text is none. A unit behind the second number counts for the first; bare numbers are in `unit`.
 *
 * The value is the middle. An open class ends at one and a half times its beginning, or begins at 0. Negative lengths and intervals whose
 * ends are the wrong way round are none. Linear in the text; texts over 256 characters are refused unread.
 */
export function parseLengthRangeM(value: unknown, unit: ColumnUnit): LengthRange | null {
  if (typeof value !== "string" || value.length > MAX_TEXT) return null;
  const text = value.trim().toLowerCase();
  const over = OVER.find((word) => text.startsWith(word));
  if (over !== undefined) return openAbove(lengthOf(text.slice(over.length), unit));
  const under = UNDER.find((word) => text.startsWith(word));
  if (under !== undefined) return from(0, lengthOf(text.slice(under.length), unit));
  const plus = text.indexOf("+");
  if (plus > 0 && text.indexOf("+", plus + 1) === -1) {
    return openAbove(lengthOf(`${text.slice(0, plus)} ${text.slice(plus + 1)}`, unit));
  }
  return between(text, unit);
}

function between(text: string, unit: ColumnUnit): LengthRange | null {
  for (const mark of [...DASHES, " to "]) {
    const at = text.indexOf(mark, 1);
    if (at === -1) continue;
    const second = text.slice(at + mark.length).trim();
    const highM = lengthOf(second, unit);
    const first = text.slice(0, at).trim();
    const lowM = isBare(first) ? lengthOf(`${first} ${unitOf(second)}`, unit) : lengthOf(first, unit);
    return from(lowM, highM);
  }
  return null;
}

const openAbove = (lowM: number | null): LengthRange | null => (lowM === null ? null : from(lowM, lowM * OPEN_END));

function from(lowM: number | null, highM: number | null): LengthRange | null {
  if (lowM === null || highM === null || lowM < 0 || highM <= lowM) return null;
  return { valueM: (lowM + highM) / 2, lowM, highM };
}

const lengthOf = (text: string, unit: ColumnUnit): number | null => parseLengthM(text.trim(), unit);

/** What stands behind the last digit, which is the unit. */
function unitOf(text: string): string {
  let at = text.length;
  while (at > 0 && !isDigit(text.charCodeAt(at - 1))) at -= 1;
  return text.slice(at);
}

function isBare(text: string): boolean {
  for (let at = 0; at < text.length; at += 1) {
    const isMark = text[at] === "." || text[at] === ",";
    if (!isDigit(text.charCodeAt(at)) && !isMark) return false;
  }
  return text.length > 0;
}

const isDigit = (code: number): boolean => code >= 48 && code <= 57;
