import type { ColumnUnit } from "../model/column-map.ts";
import { parseLengthM } from "../units/parse-length.ts";

/** A list is believed up to this many stems; our policy. */
const MAX_STEMS = 30;
const MAX_TEXT = 256;

/**
 * Diameters in meters of the stems that a value lists: `4.1,1.2,3.4`, `12; 10; 8`, `5 in + 6 in`, `12/10`, `12 and 10`, or an array of
 * numbers; null when it is no list of two or more. A single comma without a blank is a decimal comma, not a list.
 */
export function parseStemsM(value: unknown, unit: ColumnUnit): number[] | null {
  const parts = Array.isArray(value) ? value : typeof value === "string" ? partsOf(value) : null;
  if (parts === null || parts.length < 2 || parts.length > MAX_STEMS || isFraction(value)) return null;
  const stemsM: number[] = [];
  for (const part of parts) {
    const stemM = parseLengthM(part, unit);
    if (stemM === null || stemM < 0) return null;
    if (stemM > 0) stemsM.push(stemM);
  }
  return stemsM.length === 0 ? null : stemsM;
}

/** `1/2` or `3/4` is a part of an inch rather than two stems. */
const isFraction = (value: unknown): boolean =>
  typeof value === "string" && /\/\s?(2|4|8|16)$/.test(value.slice(-8).trim());

function partsOf(text: string): string[] | null {
  if (text.length > MAX_TEXT) return null;
  for (const mark of [";", "/", "+", "&", "|", " and ", ", "]) if (text.includes(mark)) return text.split(mark);
  const parts = text.split(",");
  return parts.length > 2 ? parts : null;
}

/**
 * Diameter in meters of one stem with the same cross-section as all stems together: the root of the sum of their squares.
 *
 * The rule of the USDA Forest Service's FIA National Core Field Guide for trees of several stems, where it gives the diameter at the root
 * collar (from memory).
 */
export const equivalentDiameterM = (stemsM: readonly number[]): number =>
  Math.sqrt(stemsM.reduce((sum, stemM) => sum + stemM * stemM, 0));
