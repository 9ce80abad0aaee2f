/**
 * What a member holds. `text` may be one of a few words, which the meaning lists; `date` is ISO 8601 `YYYY-MM-DD`, `interval` two of them
 * joined by `/`; `words` is a text of words joined by commas, empty for none; `texts` and `numbers` are lists; `counts` has a whole number for each word that occurs.
 */
export type FieldType =
  | "text"
  | "integer"
  | "number"
  | "boolean"
  | "date"
  | "interval"
  | "words"
  | "texts"
  | "numbers"
  | "counts"
  | "object"
  | "objects";

/** Units of the files; null where a figure has none. Lengths are always meters, whatever a run shows. */
export type FieldUnit =
  | "m"
  | "m/year"
  | "km/h"
  | "V"
  | "degrees"
  | "percent"
  | "share"
  | "hours"
  | "years"
  | "bytes"
  | null;

/** One member of one file of a revision. */
export interface DictionaryField {
  /** Path of the member: `.` between objects, `[]` behind a list of objects. */
  readonly name: string;
  readonly type: FieldType;
  readonly unit: FieldUnit;
  /** Whether null can stand there (in CSV: an empty cell). */
  readonly isNullable: boolean;
  /** One plain sentence, without a full stop. */
  readonly meaning: string;
}

/** A field in one line; a type that ends in `?` can be null. */
export function field(
  name: string,
  type: FieldType | `${FieldType}?`,
  unit: FieldUnit,
  meaning: string,
): DictionaryField {
  const isNullable = type.endsWith("?");
  return { name, type: (isNullable ? type.slice(0, -1) : type) as FieldType, unit, isNullable, meaning };
}
