import { columnName } from "../../core/inventory/column-name.ts";
import type { ColumnUnit } from "../../core/model/column-map.ts";

/** Columns of a table of words, in the order of the template. A length takes the unit in its cell, or in the name of `value`: `value_m`, `value_ft`. */
export const WORD_COLUMNS = ["tree", "visit", "word", "value", "from", "to", "due", "on", "by", "why", "id"] as const;
export type WordColumn = (typeof WORD_COLUMNS)[number];

/** Other names of a column, without marks and units. */
const ALSO: Readonly<Record<WordColumn, readonly string[]>> = {
  tree: ["treeid", "treenumber", "treeno"],
  visit: ["visitid"],
  word: ["decision", "what", "kind"],
  value: ["figure", "measured", "text"],
  from: ["windowstart", "start", "notbefore"],
  to: ["windowend", "until", "end"],
  due: ["duedate"],
  on: ["date", "saidon", "decidedon"],
  by: ["who", "arborist", "decidedby", "saidby"],
  why: ["reason", "because"],
  id: ["wordid"],
};

export interface FoundWordColumn {
  readonly at: number;
  readonly name: string;
  readonly unit: ColumnUnit | null;
}

/** The columns of a header that are understood, and the names of those that are not; of two for the same the first counts and the other is not. */
export function findWordColumns(header: readonly string[]): {
  columns: ReadonlyMap<WordColumn, FoundWordColumn>;
  others: string[];
} {
  const byName = new Map<string, WordColumn>();
  for (const column of WORD_COLUMNS) for (const name of [column, ...ALSO[column]]) byName.set(name, column);
  const columns = new Map<WordColumn, FoundWordColumn>();
  const others: string[] = [];
  header.forEach((name, at) => {
    const { whole, stem, unit } = columnName(name);
    const column = byName.get(whole) ?? byName.get(stem);
    if (column !== undefined && !columns.has(column)) columns.set(column, { at, name, unit });
    else if (name.trim() !== "") others.push(name.trim());
  });
  return { columns, others };
}
