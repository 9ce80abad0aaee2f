import type { ColumnUnit } from "../model/column-map.ts";
import { METERS_PER_FOOT, METERS_PER_INCH } from "./length.ts";

const METERS_IN: Readonly<Record<string, number>> = {
  m: 1,
  meter: 1,
  meters: 1,
  metre: 1,
  metres: 1,
  cm: 0.01,
  mm: 0.001,
  ft: METERS_PER_FOOT,
  foot: METERS_PER_FOOT,
  feet: METERS_PER_FOOT,
  "'": METERS_PER_FOOT,
  "′": METERS_PER_FOOT,
  in: METERS_PER_INCH,
  inch: METERS_PER_INCH,
  inches: METERS_PER_INCH,
  '"': METERS_PER_INCH,
  "″": METERS_PER_INCH,
};

const MAX_TEXT = 256;

/**
 * A length in meters from a number or a text such as `12 in`, `6'`, `13 ft 6 in`, `3,5 m` or `4.2`, or null when it is not one.
 * A bare number takes `unit`; a unit in the text outranks it. Texts over 256 characters are refused unread. Linear in the text.
 */
export function parseLengthM(value: unknown, unit: ColumnUnit): number | null {
  if (typeof value === "number") return Number.isFinite(value) ? scale(value, unit) : null;
  if (typeof value !== "string" || value.length > MAX_TEXT) return null;
  const text = value.trim().toLowerCase();
  let total = 0;
  let parts = 0;
  let at = 0;
  while (at < text.length) {
    const numberEnd = endOfNumber(text, at);
    const amount = parseDecimal(text.slice(at, numberEnd));
    if (amount === null) return null;
    at = skipBlanks(text, numberEnd);
    const unitEnd = endOfUnit(text, at);
    const name = text.slice(at, unitEnd);
    at = skipBlanks(text, unitEnd);
    if (name === "") {
      if (parts > 0 || at < text.length) return null;
      return scale(amount, unit);
    }
    const factor = Object.hasOwn(METERS_IN, name) ? METERS_IN[name] : undefined;
    if (factor === undefined) return null;
    total += amount * factor;
    parts += 1;
  }
  return parts > 0 ? total : null;
}

/**
 * A decimal number from text with `.` or a single `,` as its decimal mark, or null. No thousands marks, exponents or blanks inside:
 * such a text is for a person to decide.
 */
export function parseDecimal(text: string): number | null {
  const trimmed = text.trim();
  if (trimmed.length === 0 || trimmed.length > 40) return null;
  let digits = 0;
  let marks = 0;
  for (let at = 0; at < trimmed.length; at += 1) {
    const code = trimmed.charCodeAt(at);
    if (code >= 48 && code <= 57) digits += 1;
    else if (code === 44 || code === 46) marks += 1;
    else if (!(at === 0 && (code === 45 || code === 43))) return null;
  }
  if (digits === 0 || marks > 1) return null;
  return Number(trimmed.replace(",", "."));
}

function scale(amount: number, unit: ColumnUnit): number {
  const factor = Object.hasOwn(METERS_IN, unit) ? METERS_IN[unit]! : 1;
  return amount * factor;
}

function endOfNumber(text: string, from: number): number {
  let at = from;
  while (at < text.length && "0123456789.,+-".includes(text[at]!)) at += 1;
  return at;
}

function endOfUnit(text: string, from: number): number {
  let at = from;
  while (at < text.length && !"0123456789+-., \t".includes(text[at]!)) at += 1;
  return at;
}

function skipBlanks(text: string, from: number): number {
  let at = from;
  while (at < text.length && (text[at] === " " || text[at] === "\t")) at += 1;
  return at;
}
