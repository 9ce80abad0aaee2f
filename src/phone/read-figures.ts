import type { DisplayUnits } from "../core/units/format-length.ts";
import { parseDecimal, parseLengthM } from "../core/units/parse-length.ts";

/** The tallest tree that lives is 116 m, the thickest stem 11 m across. */
const MAX_HEIGHT_M = 130;
const MAX_STEM_M = 15;
const MAX_HOURS = 10_000;

/** A height in meters, to the millimeter, from what was typed; a bare number is feet or meters as the page shows them. Null when it is none. */
export const readHeightM = (text: string, units: DisplayUnits): number | null =>
  within(parseLengthM(text, units === "us" ? "ft" : "m"), MAX_HEIGHT_M);

/** A stem's diameter in meters; a bare number is inches or centimeters. Null when it is none. */
export const readStemM = (text: string, units: DisplayUnits): number | null =>
  within(parseLengthM(text, units === "us" ? "in" : "cm"), MAX_STEM_M);

/** A share from 0 to 1 from a typed percentage, `15`, `15 %` or `7,5`; null when it is none. */
export function readDoseShare(text: string): number | null {
  const percent = within(parseDecimal(text.replace("%", "")), 100);
  return percent === null ? null : Math.round(percent * 10) / 1000;
}

/** Hours from what was typed; null when it is none. */
export const readHours = (text: string): number | null => within(parseDecimal(text.replace(/h$/i, "")), MAX_HOURS);

const within = (value: number | null, most: number): number | null =>
  value === null || value < 0 || value > most ? null : Math.round(value * 1000) / 1000;
