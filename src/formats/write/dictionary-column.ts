import type { DictionaryField, FieldType } from "../../core/plan/data-dictionary.ts";
import type { CellValue, ColumnType, TableColumn } from "./layer-table.ts";

const COLUMN_TYPES: Readonly<Record<FieldType, ColumnType>> = {
  text: "text",
  integer: "integer",
  number: "real",
  boolean: "boolean",
  date: "date",
  interval: "text",
  words: "text",
  texts: "text",
  numbers: "text",
  counts: "text",
  object: "text",
  objects: "text",
};

/** A column of our own with the dictionary's type and meaning; lists must be JSON text already. */
export function dictionaryColumn(
  { name, type, unit, meaning }: DictionaryField,
  values: readonly CellValue[],
): TableColumn {
  return { name, type: COLUMN_TYPES[type], meaning: unit === null ? meaning : `${meaning} (${unit})`, values };
}
