import type { ColumnGuess, ConfidenceLevel, UnitSource } from "../model/column-guess.ts";
import type { ColumnUnit } from "../model/column-map.ts";
import type { Layer } from "../model/terms.ts";
import { type ColumnValues, shareReadable } from "./column-fit.ts";
import type { NameMatch } from "./name-matches.ts";
import { zeroMeaning } from "./zero-meaning.ts";

/** A field's column with its unit, before it is written down. */
export interface Chosen {
  readonly field: string;
  readonly match: NameMatch;
  readonly unit: ColumnUnit | null;
  readonly unitFrom: UnitSource | null;
  readonly alternatives: readonly string[];
}

/** How sure a unit is by what says it, and a column without values; our policy. */
const UNIT_SCORE: Readonly<Record<UnitSource, number>> = { name: 1, values: 1, range: 0.7, assumed: 0.8 };
const NO_VALUES = 0.5;
const LEAST = { high: 0.8, medium: 0.5 };

/** A guess as a row for a person to check; `rows` is how many were looked at. */
export function describeGuess(layer: Layer, chosen: Chosen, values: ColumnValues, rows: number): ColumnGuess {
  const { field, match, unit, unitFrom, alternatives } = chosen;
  const readable = shareReadable(field, unit, values.filled);
  const product = match.score * (readable ?? NO_VALUES) * (unitFrom === null ? 1 : UNIT_SCORE[unitFrom]);
  const confidence = Math.round(product * 100) / 100;
  return {
    layer,
    field,
    column: match.column.name,
    unit,
    unitFrom,
    isUnitNamed: unitFrom === "name" || unitFrom === "values",
    zero: zeroMeaning(field),
    rows,
    shareEmpty: values.shareEmpty,
    shareZero: values.shareZero,
    samples: values.samples,
    shareReadable: readable,
    confidence,
    level: levelOf(confidence),
    why: whyOf(chosen, readable),
    alternatives,
  };
}

/** The word for a confidence from 0 to 1. */
export const levelOf = (confidence: number): ConfidenceLevel =>
  confidence >= LEAST.high ? "high" : confidence >= LEAST.medium ? "medium" : "low";

function whyOf({ match, unit, unitFrom, alternatives }: Chosen, readable: number | null): string {
  const parts = [`The name is ${match.how}`];
  if (readable === null) parts.push("no value to test it by");
  else if (readable < 1) parts.push(`${Math.floor(readable * 100)} % of its values can be read`);
  if (unitFrom === "name") parts.push(`the name says ${unit}`);
  if (unitFrom === "values") parts.push(`the values say ${unit}`);
  if (unitFrom === "range") parts.push(`the size of the values suggests ${unit}`);
  if (unitFrom === "assumed") parts.push(`nothing says the unit, ${unit} is assumed`);
  if (alternatives.length > 0) parts.push(`${alternatives[0]!.slice(0, 60)} could be it too`);
  return `${parts.join("; ")}.`;
}
