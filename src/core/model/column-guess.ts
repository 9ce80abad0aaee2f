import type { ColumnUnit } from "./column-map.ts";
import type { Layer } from "./terms.ts";

/** How far a guess is to be trusted: `high` from a confidence of 0.8, `medium` from 0.5, `low` below. */
export const CONFIDENCE_LEVELS = ["high", "medium", "low"] as const;
export type ConfidenceLevel = (typeof CONFIDENCE_LEVELS)[number];

/** What says the unit of a bare number: the column's name, units written in its values, the range of its values, or nothing. */
export const UNIT_SOURCES = ["name", "values", "range", "assumed"] as const;
export type UnitSource = (typeof UNIT_SOURCES)[number];

/** What a sample of a column's rows holds, whether or not a field was found for it. */
export interface ColumnLook {
  readonly column: string;
  /** Rows looked at, spread evenly over the table. */
  readonly rows: number;
  /** Share of these rows that say nothing: empty, `N/A`, -999 and their like; 0 to 1. A 0 is not empty. */
  readonly shareEmpty: number;
  /** Share of these rows that hold a plain 0. */
  readonly shareZero: number;
  /** The first different values, at most five, as text of at most 40 characters. */
  readonly samples: readonly string[];
}

/** One field's column as guessed, for a person to check, mend and keep. */
export interface ColumnGuess extends ColumnLook {
  readonly layer: Layer;
  /** The canonical field. */
  readonly field: string;
  /** Unit of a bare number; null for fields without one. */
  readonly unit: ColumnUnit | null;
  /** Null where the field has no unit. */
  readonly unitFrom: UnitSource | null;
  /** Whether the name or the values name the unit, so that nothing had to be inferred or assumed. */
  readonly isUnitNamed: boolean;
  /** What a 0 means in it; null for fields that hold no numbers. */
  readonly zero: "value" | "unknown" | null;
  /** Share of the filled values that the field can read, 0 to 1; null without values. */
  readonly shareReadable: number | null;
  /** From 0 to 1: how well the name is known, times the share that can be read, less where the unit is inferred or assumed. */
  readonly confidence: number;
  readonly level: ConfidenceLevel;
  /** What speaks for and against the guess, one plain sentence. */
  readonly why: string;
  /** Other columns whose names say the same field, best first, at most five. */
  readonly alternatives: readonly string[];
}
