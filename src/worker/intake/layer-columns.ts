import {
  assumedUnit,
  type ColumnValues,
  columnValues,
  isLengthField,
  middleM,
  sampleOf,
  shareReadable,
  unitInValues,
} from "../../core/inventory/column-fit.ts";
import { guessColumnMap } from "../../core/inventory/guess-columns.ts";
import { zeroMeaning } from "../../core/inventory/zero-meaning.ts";
import type { ColumnGuess, ColumnLook } from "../../core/model/column-guess.ts";
import { type ColumnMap, type ColumnSource, type ColumnUnit, FIELDS } from "../../core/model/column-map.ts";
import type { SourceFeature } from "../../core/model/feature.ts";
import { NOT_USED } from "../../core/model/not-used.ts";
import type { Layer } from "../../core/model/terms.ts";
import type { ColumnRow, FieldChoice } from "./intake-messages.ts";
import { unitChoices } from "./unit-choices.ts";

/** The columns of a layer as they would be read, and what is left over. */
export interface LayerColumns {
  readonly rows: readonly ColumnRow[];
  readonly unused: readonly ColumnLook[];
  /** The layer's part of the column map: every row, and every field that is to be fed by nothing although a column has its name. */
  readonly map: Readonly<Record<string, ColumnSource>>;
}

interface Settled extends ColumnSource {
  readonly field: string;
  readonly from: ColumnRow["from"];
  readonly guess: ColumnGuess | null;
}

interface Told {
  readonly layer: Layer;
  readonly names: readonly string[];
  readonly given: ColumnMap;
  readonly guesses: readonly ColumnGuess[];
  readonly choices: readonly FieldChoice[];
  readonly filledOf: (column: string) => readonly unknown[];
}

/**
 * The columns of one layer: as `given` says where it names the layer, else as guessed, and over either what a person chose. A guess gives way
 * where a person gave its column to another field. Rows come in the order of the fields.
 */
export function layerColumns(
  layer: Layer,
  features: readonly SourceFeature[],
  given: ColumnMap,
  choices: readonly FieldChoice[],
): LayerColumns {
  const names = columnNames(features);
  const sample = sampleOf(features);
  const looks = new Map(names.map((name) => [name, columnValues(name, sample)]));
  const filledOf = (column: string): readonly unknown[] => looks.get(column)?.filled ?? [];
  const { guesses } = guessColumnMap(layer, names, features);
  const settled = settle({ layer, names, given, guesses, choices, filledOf });
  const rows = settled.map((one) => rowOf(one, looks, sample.length));
  const used = new Set(rows.map(({ column }) => column));
  return {
    rows,
    unused: names.filter((name) => !used.has(name)).map((name) => lookOf(name, looks.get(name)!, sample.length)),
    map: Object.fromEntries([
      ...settled.map(({ field, from: _from, guess: _guess, ...source }) => [field, source] as const),
      ...notUsed(layer, settled, names),
    ]),
  };
}

function settle({ layer, names, given, guesses, choices, filledOf }: Told): Settled[] {
  const ours = choices.filter((choice) => choice.layer === layer);
  const taken = new Set(ours.flatMap(({ column }) => (column === null ? [] : [column])));
  const layerMap = given[layer] as Readonly<Record<string, ColumnSource>> | undefined;
  return FIELDS[layer].flatMap((field: string): Settled[] => {
    const guess = guesses.find((one) => one.field === field) ?? null;
    const choice = ours.findLast((one) => one.field === field);
    const before = layerMap !== undefined && Object.hasOwn(layerMap, field) ? layerMap[field]! : null;
    if (choice !== undefined) {
      if (choice.column === null) return [];
      const { column } = choice;
      const unit = choice.unit ?? (isLengthField(field) ? unitInValues(filledOf(column)) : null) ?? assumedUnit(field);
      const words = before?.column === column ? before.values : undefined;
      const source = sourceOf(column, unit, choice.zero ?? zeroMeaning(field));
      return [{ field, ...source, ...withWords(words), from: "person", guess }];
    }
    // A field that nothing is said of is looked up under its own name.
    const ownName = names.includes(field) && !taken.has(field) ? { column: field } : null;
    if (layerMap === undefined && guess !== null) {
      if (taken.has(guess.column)) return [];
      return [{ field, ...sourceOf(guess.column, guess.unit, guess.zero), from: "guess", guess }];
    }
    const source: ColumnSource | null = before ?? ownName;
    if (source === null || source.column === NOT_USED || taken.has(source.column)) return [];
    const { column, unit = assumedUnit(field), zero = zeroOf(field), values } = source;
    const from = before === null ? "name" : "map";
    return [{ field, ...sourceOf(column, unit, zero), ...withWords(values), from, guess: null }];
  });
}

/** What 0 means where a map from a file says nothing of it: a value, but for a stem. */
const zeroOf = (field: string): "value" | "unknown" | null =>
  zeroMeaning(field) === null ? null : field === "dbh" || field === "girth" ? "unknown" : "value";

const withWords = (values: ColumnSource["values"]) => (values === undefined ? {} : { values });

const sourceOf = (column: string, unit: ColumnUnit | null, zero: "value" | "unknown" | null): ColumnSource => ({
  column,
  ...(unit === null ? {} : { unit }),
  ...(zero === null ? {} : { zero }),
});

function rowOf(one: Settled, looks: ReadonlyMap<string, ColumnValues>, sampled: number): ColumnRow {
  const { field, column, from, guess } = one;
  const unit = one.unit ?? null;
  const values = looks.get(column);
  const filled = values?.filled ?? [];
  const readable = shareReadable(field, unit, filled);
  const isAsGuessed = guess !== null && guess.column === column && guess.unit === unit;
  return {
    ...lookOf(column, values ?? NO_VALUES, sampled),
    field,
    unit,
    units: unitChoices(field),
    zero: one.zero ?? null,
    from,
    level: from === "guess" ? (guess?.level ?? null) : null,
    why: from === "guess" && guess !== null ? guess.why : whyOf(from, readable, values !== undefined, isAsGuessed),
    shareReadable: readable,
    isFound: values !== undefined,
    middleM: isLengthField(field) ? middleM(filled, unit ?? "m") : null,
  };
}

function whyOf(from: ColumnRow["from"], readable: number | null, isFound: boolean, isAsGuessed: boolean): string {
  const who = WHO[from];
  if (!isFound) return `${who}; no feature has this column.`;
  if (readable === null) return `${who}; it has no value to test it by.`;
  if (readable < 1) return `${who}; ${Math.floor(readable * 100)} % of its values can be read.`;
  return isAsGuessed ? `${who}; it was guessed too.` : `${who}; all its values can be read.`;
}

const WHO = {
  guess: "It was guessed",
  name: "It has the field's own name",
  map: "Your column map says it",
  person: "You chose it",
};

const NO_VALUES: ColumnValues = { filled: [], shareEmpty: 1, shareZero: 0, samples: [] };

const lookOf = (column: string, { shareEmpty, shareZero, samples }: ColumnValues, rows: number): ColumnLook => ({
  column,
  rows,
  shareEmpty,
  shareZero,
  samples,
});

/** Fields without a row whose own name is a column: left out of the map they would be read from it all the same. */
function notUsed(layer: Layer, settled: readonly Settled[], names: readonly string[]) {
  const fed = new Set(settled.map(({ field }) => field));
  return FIELDS[layer]
    .filter((field: string) => !fed.has(field) && names.includes(field))
    .map((field: string): [string, ColumnSource] => [field, { column: NOT_USED }]);
}

function columnNames(features: readonly SourceFeature[]): string[] {
  const names = new Set<string>();
  for (const { properties } of features) for (const name of Object.keys(properties)) names.add(name);
  return [...names];
}
