import type { ColumnGuess, ColumnLook } from "../model/column-guess.ts";
import { type ColumnMap, type ColumnSource, type ColumnUnit, FIELDS } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { Finding } from "../model/finding.ts";
import { LAYERS, type Layer } from "../model/terms.ts";
import {
  assumedUnit,
  type ColumnValues,
  columnValues,
  middleM,
  sampleOf,
  shareOfClasses,
  shareReadable,
  unitInValues,
} from "./column-fit.ts";
import { columnName } from "./column-name.ts";
import { type Chosen, describeGuess } from "./describe-guess.ts";
import { guessFindings } from "./guess-findings.ts";
import { type NameMatch, nameMatches } from "./name-matches.ts";
import { isNumberField, zeroMeaning } from "./zero-meaning.ts";

/** A crown base whose middle is above this share of the middle height is no base but a top; our policy. */
const MOST_BASE_SHARE = 0.8;
/** Where the middle value of a column lies when its numbers are in another unit than the field's own; our policy. */
const MIDDLE_DBH_M = { mostCentimeters: 1.5, leastCentimeters: 0.03 };
const MOST_MIDDLE_HEIGHT_M = 35;
const MOST_MIDDLE_SPREAD_M = 20;
/** Height over diameter of the middle tree, above which the diameter is in inches; see `unit-doubts.ts`. */
const MOST_SLENDERNESS = 100;

const MOST_ALTERNATIVES = 5;

export interface GuessedColumns {
  readonly columns: ColumnMap;
  readonly findings: Finding[];
  readonly guesses: ColumnGuess[];
  /** Columns that feed no field, in the table's order. */
  readonly unused: ColumnLook[];
}

/**
 * A column map for one layer guessed from its columns' names, the units in names and values, and whether a sample of the values can be what
 * the field wants; with the guess as rows for a person to check, and one finding that lists it.
 *
 * Names come from `column-aliases.ts` and `foreign-column-names.ts`, best known first; each column feeds one field. A unit is taken from the
 * name, else from what the values write, else from the range of their middle. Lay a map of the user's over it with {@link overlayColumnMap}.
 */
export function guessColumnMap(
  layer: Layer,
  propertyNames: readonly string[],
  features: readonly SourceFeature[],
): GuessedColumns {
  const sample = sampleOf(features);
  const values = new Map(propertyNames.map((name) => [name, columnValues(name, sample)]));
  const chosen = settleUnits(choose(layer, propertyNames, values), values);
  const guesses = chosen.map((one) => describeGuess(layer, one, values.get(one.match.column.name)!, sample.length));
  const used = new Set(guesses.map(({ column }) => column));
  return {
    columns: { [layer]: Object.fromEntries(chosen.map((one) => [one.field, sourceOf(one)])) },
    findings: guessFindings(layer, guesses, features[0]?.file ?? null),
    guesses,
    unused: propertyNames
      .filter((column) => !used.has(column))
      .map((column) => {
        const { shareEmpty, shareZero, samples } = values.get(column)!;
        return { column, rows: sample.length, shareEmpty, shareZero, samples };
      }),
  };
}

/** Fields with their columns, in the order of the fields. Names that are sure are given out before those that are not. */
function choose(
  layer: Layer,
  propertyNames: readonly string[],
  values: ReadonlyMap<string, ColumnValues>,
): (Chosen & { field: string })[] {
  const names = propertyNames.map(columnName);
  const matches = new Map(FIELDS[layer].map((field: string) => [field, nameMatches(layer, field, names)]));
  const used = new Set<string>();
  const chosen = new Map<string, NameMatch>();
  const fits = (field: string, { column, unit, isOfClasses }: NameMatch): boolean => {
    const { filled } = values.get(column.name)!;
    if (isOfClasses && shareOfClasses(filled) < 0.5) return false;
    if ((shareReadable(field, unit, filled) ?? 1) < 0.5) return false;
    const height = chosen.get("height");
    if (field !== "crown_base" || height === undefined) return true;
    const baseM = middleM(filled, unit ?? "m");
    const heightM = middleM(values.get(height.column.name)!.filled, height.unit ?? "m");
    return baseM === null || heightM === null || unit !== height.unit || baseM <= MOST_BASE_SHARE * heightM;
  };
  for (const isSure of [true, false]) {
    for (const [field, list] of matches) {
      if (chosen.has(field)) continue;
      const found = list.find(
        (match) => match.score >= 0.9 === isSure && !used.has(match.column.name) && fits(field, match),
      );
      if (found === undefined) continue;
      used.add(found.column.name);
      chosen.set(field, found);
    }
  }
  return FIELDS[layer].flatMap((field: string) => {
    const match = chosen.get(field);
    if (match === undefined) return [];
    const others = matches.get(field)!.filter(({ column }) => !used.has(column.name));
    const alternatives = others.slice(0, MOST_ALTERNATIVES);
    return [{ field, match, unit: null, unitFrom: null, alternatives: alternatives.map(({ column }) => column.name) }];
  });
}

/** The unit of every chosen column, and what says it. */
function settleUnits(chosen: readonly Chosen[], values: ReadonlyMap<string, ColumnValues>): Chosen[] {
  const settled = chosen.map((one): Chosen => {
    const assumed = assumedUnit(one.field);
    if (assumed === null) return one;
    if (one.match.unit !== null) return { ...one, unit: one.match.unit, unitFrom: "name" };
    const { filled } = values.get(one.match.column.name)!;
    const written = assumed === "m" || assumed === "cm" ? unitInValues(filled) : null;
    if (written !== null) return { ...one, unit: written, unitFrom: "values" };
    const ranged = unitByRange(one.field, filled);
    return ranged === null
      ? { ...one, unit: assumed, unitFrom: "assumed" }
      : { ...one, unit: ranged, unitFrom: "range" };
  });
  const height = settled.find(({ field }) => field === "height");
  return settled.map((one) => {
    if (one.field !== "dbh" || one.unitFrom !== "assumed" || height === undefined) return one;
    const dbhM = middleM(values.get(one.match.column.name)!.filled, "cm");
    const heightM = middleM(values.get(height.match.column.name)!.filled, height.unit ?? "m");
    const isSlender = dbhM !== null && heightM !== null && heightM / dbhM > MOST_SLENDERNESS;
    return isSlender ? { ...one, unit: "in", unitFrom: "range" } : one;
  });
}

/** The unit that only the range of the values can tell; null where they can be in the field's own. */
function unitByRange(field: string, filled: readonly unknown[]): ColumnUnit | null {
  if (field === "dbh" || field === "girth") {
    const inCentimeters = middleM(filled, "cm");
    if (inCentimeters === null) return null;
    const middle = field === "dbh" ? inCentimeters : inCentimeters / Math.PI;
    return middle > MIDDLE_DBH_M.mostCentimeters ? "mm" : middle < MIDDLE_DBH_M.leastCentimeters ? "m" : null;
  }
  const most = field === "height" ? MOST_MIDDLE_HEIGHT_M : field === "crown_spread" ? MOST_MIDDLE_SPREAD_M : null;
  if (most === null) return null;
  return (middleM(filled, "m") ?? 0) > most ? "ft" : null;
}

function sourceOf({ field, match, unit, unitFrom }: Chosen): ColumnSource {
  const named = unitFrom === "assumed" ? match.unit : unit;
  return {
    column: match.column.name,
    ...(named === null ? {} : { unit: named }),
    ...(isNumberField(field) && zeroMeaning(field) === "unknown" && field !== "dbh" ? { zero: "unknown" } : {}),
  };
}

/** One map laid over another: a field that the upper one gives counts, all others stay. */
export function overlayColumnMap(upper: ColumnMap, lower: ColumnMap): ColumnMap {
  const given = LAYERS.filter((layer) => upper[layer] !== undefined || lower[layer] !== undefined);
  return Object.fromEntries(given.map((layer) => [layer, { ...lower[layer], ...upper[layer] }]));
}
