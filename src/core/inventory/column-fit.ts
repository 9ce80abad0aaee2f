import { type ColumnUnit, DEFAULT_UNITS } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import { isMissing } from "../units/is-missing.ts";
import { parseDate } from "../units/parse-date.ts";
import { parseDecimal, parseLengthM } from "../units/parse-length.ts";
import { parseLengthRangeM } from "../units/parse-range.ts";
import { parseShare } from "../units/parse-share.ts";
import { parseSpeedKmh } from "../units/parse-speed.ts";
import { asText } from "./finding-log.ts";
import { parseStemsM } from "./stem-list.ts";

const LENGTHS: ReadonlySet<string> = new Set(
  "dbh girth height crown_base crown_radius crown_spread crown_width_1 crown_width_2 radius_n radius_e radius_s radius_w crown_offset caliper_at_planting ground_z headroom_over_road width attachment_height_1 attachment_height_2 sag min_height shoulder_width".split(
    " ",
  ),
);
const DATES: ReadonlySet<string> = new Set(["planted", "last_pruned"]);
const NUMBERS: ReadonlySet<string> = new Set(["levels", "lanes", "stems"]);
const ROWS_LOOKED_AT = 500;
const MAX_SHOWN_VALUES = 5;
const MAX_SHOWN_LETTERS = 40;

export const isLengthField = (field: string): boolean => LENGTHS.has(field);

/** The unit a bare number is taken in where nothing names one; null for fields without a unit. */
export const assumedUnit = (field: string): ColumnUnit | null =>
  DEFAULT_UNITS[field] ?? (LENGTHS.has(field) ? "m" : null);

/** Features spread evenly over a table, at most five hundred, the first among them. */
export function sampleOf(features: readonly SourceFeature[]): readonly SourceFeature[] {
  if (features.length <= ROWS_LOOKED_AT) return features;
  return Array.from(
    { length: ROWS_LOOKED_AT },
    (_, at) => features[Math.floor((at * features.length) / ROWS_LOOKED_AT)]!,
  );
}

/** A column's values in a sample: those that say something, and what the column looks like. */
export interface ColumnValues {
  readonly filled: readonly unknown[];
  readonly shareEmpty: number;
  readonly shareZero: number;
  readonly samples: readonly string[];
}

/** Reads a column from a sample; a column of the object's prototype is empty. */
export function columnValues(column: string, sample: readonly SourceFeature[]): ColumnValues {
  const filled: unknown[] = [];
  const samples = new Set<string>();
  let zeros = 0;
  for (const { properties } of sample) {
    if (!Object.hasOwn(properties, column) || isMissing(properties[column])) continue;
    const value = properties[column];
    filled.push(value);
    if (isPlainZero(value)) zeros += 1;
    const text = asText(value);
    if (text !== null && samples.size < MAX_SHOWN_VALUES) samples.add(text.trim().slice(0, MAX_SHOWN_LETTERS));
  }
  const rows = Math.max(1, sample.length);
  return {
    filled,
    shareEmpty: (sample.length - filled.length) / rows,
    shareZero: zeros / rows,
    samples: [...samples],
  };
}

const isPlainZero = (value: unknown): boolean =>
  value === 0 || (typeof value === "string" && value.length <= 40 && parseDecimal(value) === 0);

/** Share of values that a field can read in a unit, 0 to 1; 1 where any text will do, null without values. */
export function shareReadable(field: string, unit: ColumnUnit | null, filled: readonly unknown[]): number | null {
  if (filled.length === 0) return null;
  const reads = readerOf(field, unit);
  return reads === null ? 1 : filled.filter(reads).length / filled.length;
}

function readerOf(field: string, unit: ColumnUnit | null): ((value: unknown) => boolean) | null {
  if (LENGTHS.has(field)) return (value) => isLength(field, value, unit ?? assumedUnit(field) ?? "m");
  if (DATES.has(field)) return (value) => !("fault" in parseDate(value, "month-first"));
  if (field === "speed") return (value) => parseSpeedKmh(value, unit ?? "km/h") !== null;
  if (field === "last_dose") return (value) => parseShare(value, unit ?? "percent") !== null;
  return NUMBERS.has(field) ? isNumber : null;
}

/** Whether a value is a finite number, or text of one; objects are not, whatever they turn into. */
const isNumber = (value: unknown): boolean =>
  typeof value === "number"
    ? Number.isFinite(value)
    : typeof value === "string" && value.length <= 256 && Number.isFinite(Number(value));

/** Whether a value is a length, a class of lengths, or of a stem a list of stems. */
const isLength = (field: string, value: unknown, unit: ColumnUnit): boolean =>
  parseLengthM(value, unit) !== null ||
  parseLengthRangeM(value, unit) !== null ||
  ((field === "dbh" || field === "girth") && parseStemsM(value, unit) !== null);

/** Share of values that are written as classes of lengths (`10-20 ft`, `30+`), 0 to 1; 0 without values. */
export const shareOfClasses = (filled: readonly unknown[]): number =>
  filled.length === 0 ? 0 : filled.filter((value) => parseLengthRangeM(value, "m") !== null).length / filled.length;

/** The middle of the values in meters, bare numbers taken in `unit`, zeros left out; null for fewer than ten. */
export function middleM(filled: readonly unknown[], unit: ColumnUnit): number | null {
  const lengthsM = filled.flatMap((value) => {
    const lengthM = parseLengthM(value, unit) ?? parseLengthRangeM(value, unit)?.valueM ?? 0;
    return lengthM > 0 ? [lengthM] : [];
  });
  if (lengthsM.length < 10) return null;
  return Float64Array.from(lengthsM).sort()[Math.floor(lengthsM.length / 2)]!;
}

/** Units as values write them, longest first where one begins like another. */
const WRITTEN_UNITS: readonly (readonly [ColumnUnit, RegExp])[] = [
  ["in", /(\d\s?(in|inch|inches)\.?|["″])$/],
  ["ft", /(\d\s?(ft|foot|feet)\.?|['′])$/],
  ["cm", /\d\s?cm\.?$/],
  ["mm", /\d\s?mm\.?$/],
  ["m", /\d\s?(m|meter|meters|metre|metres)\.?$/],
];

/** The unit that at least half of the values write behind their numbers; null when they do not agree or name none. */
export function unitInValues(filled: readonly unknown[]): ColumnUnit | null {
  for (const [unit, pattern] of WRITTEN_UNITS) {
    const count = filled.filter(
      (value) => typeof value === "string" && value.length <= 40 && pattern.test(value.trim().toLowerCase()),
    ).length;
    if (count > 0 && count * 2 >= filled.length) return unit;
  }
  return null;
}
