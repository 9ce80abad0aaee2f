import { type ColumnMap, type ColumnSource, type ColumnUnit, DEFAULT_UNITS, FIELDS } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { Finding } from "../model/finding.ts";
import { LAYERS, type Layer } from "../model/terms.ts";
import { isMissing } from "../units/is-missing.ts";
import { parseDate } from "../units/parse-date.ts";
import { parseLengthM } from "../units/parse-length.ts";
import { parseLengthRangeM } from "../units/parse-range.ts";
import { parseSpeedKmh } from "../units/parse-speed.ts";
import { COLUMN_ALIASES } from "./column-aliases.ts";
import { asText } from "./finding-log.ts";
import { parseStemsM } from "./stem-list.ts";

const UNITS_IN_NAMES: ReadonlyMap<string, ColumnUnit> = new Map([
  ["in", "in"],
  ["inch", "in"],
  ["inches", "in"],
  ["ft", "ft"],
  ["feet", "ft"],
  ["m", "m"],
  ["meters", "m"],
  ["metres", "m"],
  ["cm", "cm"],
  ["mm", "mm"],
  ["mph", "mph"],
  ["kmh", "km/h"],
  ["kph", "km/h"],
  ["kv", "kV"],
  ["v", "V"],
  ["pct", "percent"],
]);

const LENGTHS: ReadonlySet<string> = new Set([
  "dbh",
  "height",
  "crown_base",
  "crown_radius",
  "crown_spread",
  "crown_width_1",
  "crown_width_2",
  "radius_n",
  "radius_e",
  "radius_s",
  "radius_w",
  "caliper_at_planting",
  "ground_z",
  "headroom_over_road",
  "width",
  "attachment_height_1",
  "attachment_height_2",
  "sag",
]);
const DATES: ReadonlySet<string> = new Set(["planted", "last_pruned"]);
/** Fields whose 0 is nobody's measurement. */
const ZERO_IS_UNKNOWN: ReadonlySet<string> = new Set(["height", "levels", "speed", "lanes", "width", "voltage"]);
const MAX_SAMPLE = 200;
const MAX_SHOWN_VALUES = 3;

/** How sure a guess is, our policy: a name from the list of aliases, values nobody could test, a unit that nothing names. */
const CONFIDENCE = { alias: 0.9, noValues: 0.5, unitAssumed: 0.8 };

/** One field's column as guessed, for a person to check. */
export interface ColumnGuess {
  readonly field: string;
  readonly column: string;
  /** Unit of a bare number, as named or as assumed; null for fields without one. */
  readonly unit: ColumnUnit | null;
  readonly isUnitNamed: boolean;
  /** From 0 to 1: how well the name is known, times the share of the sample's values that fit the field, less where the unit is assumed. */
  readonly confidence: number;
  /** The first different values, at most three, as text. */
  readonly samples: readonly string[];
}

/**
 * A column map for one layer guessed from its columns' names, and from whether a sample of their values can be what the field wants,
 * with one finding that lists the guess. A unit at the end of a name (`DBH_in`, `Height (ft)`) is taken over.
 *
 * Simple on purpose: names only from the list in `column-aliases.ts`, no statistics. Lay a map of the user's over it with {@link overlayColumnMap}.
 */
export function guessColumnMap(
  layer: Layer,
  propertyNames: readonly string[],
  sampleFeatures: readonly SourceFeature[],
): { columns: ColumnMap; findings: Finding[]; guesses: ColumnGuess[] } {
  const names = propertyNames.map((name) => ({ name, ...splitName(name) }));
  const aliases = COLUMN_ALIASES[layer] as Readonly<Record<string, string>>;
  const sample = sampleFeatures.slice(0, MAX_SAMPLE);
  const used = new Set<string>();
  const guess = new Map<string, ColumnSource>();
  for (const field of FIELDS[layer]) {
    const wanted = [plain(field), ...(aliases[field]?.split(" ") ?? [])];
    const found = wanted
      .flatMap((alias) => names.filter((one) => one.stem === alias || one.whole === alias))
      .find((one) => !used.has(one.name) && fits(field, one.name, one.unit, sample));
    if (found === undefined) continue;
    used.add(found.name);
    guess.set(field, {
      column: found.name,
      ...(found.unit === null ? {} : { unit: found.unit }),
      ...(ZERO_IS_UNKNOWN.has(field) ? { zero: "unknown" } : {}),
    });
  }
  const columns: ColumnMap = { [layer]: Object.fromEntries(guess) };
  return {
    columns,
    findings: guess.size === 0 ? [] : [guessFinding(layer, guess, sampleFeatures[0]?.file ?? null)],
    guesses: [...guess].map(([field, source]) => describeGuess(field, source, sample)),
  };
}

function describeGuess(field: string, { column, unit }: ColumnSource, sample: readonly SourceFeature[]): ColumnGuess {
  const named = splitName(column);
  const isOwnName = named.stem === plain(field) || named.whole === plain(field);
  const shown = unit ?? assumedUnit(field);
  const { filled, good } = countFitting(field, column, unit ?? null, sample);
  const confidence =
    (isOwnName ? 1 : CONFIDENCE.alias) *
    (filled === 0 ? CONFIDENCE.noValues : good / filled) *
    (shown !== null && unit === undefined ? CONFIDENCE.unitAssumed : 1);
  return {
    field,
    column,
    unit: shown,
    isUnitNamed: unit !== undefined,
    confidence: Math.round(confidence * 100) / 100,
    samples: shownValues(column, sample),
  };
}

function shownValues(column: string, sample: readonly SourceFeature[]): string[] {
  const shown = new Set<string>();
  for (const { properties } of sample) {
    if (shown.size === MAX_SHOWN_VALUES) break;
    const text = Object.hasOwn(properties, column) ? asText(properties[column]) : null;
    if (text !== null && !isMissing(properties[column])) shown.add(text.slice(0, 40));
  }
  return [...shown];
}

/** The unit a bare number is taken in where nothing names one; null for fields without a unit. */
const assumedUnit = (field: string): ColumnUnit | null =>
  LENGTHS.has(field) || field === "speed" ? (DEFAULT_UNITS[field] ?? "m") : null;

/** One map laid over another: a field that the upper one gives counts, all others stay. */
export function overlayColumnMap(upper: ColumnMap, lower: ColumnMap): ColumnMap {
  const given = LAYERS.filter((layer) => upper[layer] !== undefined || lower[layer] !== undefined);
  return Object.fromEntries(given.map((layer) => [layer, { ...lower[layer], ...upper[layer] }]));
}

/** A column's name without case and marks, whole and without the unit at its end. */
function splitName(name: string): { whole: string; stem: string; unit: ColumnUnit | null } {
  const words = name
    .slice(0, 256)
    .toLowerCase()
    .split(/[^a-z0-9]/)
    .filter((word) => word !== "");
  const unit = words.length > 1 ? (UNITS_IN_NAMES.get(words.at(-1)!) ?? null) : null;
  return { whole: words.join(""), stem: (unit === null ? words : words.slice(0, -1)).join(""), unit };
}

const plain = (field: string): string => field.replaceAll("_", "");

/** Whether at least half of the sample's values that say anything can be what the field wants; true for a sample without values. */
function fits(field: string, column: string, unit: ColumnUnit | null, sample: readonly SourceFeature[]): boolean {
  const { filled, good } = countFitting(field, column, unit, sample);
  return good * 2 >= filled;
}

/** How many of the sample's values say anything, and how many of these the field can read; all where any text will do. */
function countFitting(
  field: string,
  column: string,
  unit: ColumnUnit | null,
  sample: readonly SourceFeature[],
): { filled: number; good: number } {
  const reads = readerOf(field, unit) ?? (() => true);
  let filled = 0;
  let good = 0;
  for (const { properties } of sample) {
    if (!Object.hasOwn(properties, column) || isMissing(properties[column])) continue;
    filled += 1;
    if (reads(properties[column])) good += 1;
  }
  return { filled, good };
}

function readerOf(field: string, unit: ColumnUnit | null): ((value: unknown) => boolean) | null {
  if (LENGTHS.has(field)) return (value) => isLength(field, value, unit ?? DEFAULT_UNITS[field] ?? "m");
  if (DATES.has(field)) return (value) => !("fault" in parseDate(value, true));
  if (field === "speed") return (value) => parseSpeedKmh(value, unit ?? "km/h") !== null;
  if (field === "levels" || field === "lanes" || field === "stems") return isNumber;
  return null;
}

/** Whether a value is a finite number, or text of one; objects are not, whatever they turn into. */
const isNumber = (value: unknown): boolean =>
  typeof value === "number"
    ? Number.isFinite(value)
    : typeof value === "string" && value.length <= 256 && Number.isFinite(Number(value));

/** Whether a value is a length, a class of lengths, or for the stem's diameter a list of stems. */
const isLength = (field: string, value: unknown, unit: ColumnUnit): boolean =>
  parseLengthM(value, unit) !== null ||
  parseLengthRangeM(value, unit) !== null ||
  (field === "dbh" && parseStemsM(value, unit) !== null);

function guessFinding(layer: Layer, guess: ReadonlyMap<string, ColumnSource>, file: string | null): Finding {
  const parts = [...guess].map(([field, { column, unit }]) => {
    const shown = unit ?? assumedUnit(field);
    const how = shown === null ? "" : unit === undefined ? ` (taken as ${shown})` : ` (${shown})`;
    return `${field} from ${column.slice(0, 60)}${how}`;
  });
  return {
    code: "columns-guessed",
    severity: "info",
    layer: "columns",
    file,
    feature: null,
    field: null,
    value: null,
    reason: `The columns of ${layer} were guessed from their names: ${parts.join(", ")}.`,
    whatToDo: "Check the list, units above all; a column map of your own outranks it.",
  };
}
