import type { SourceFeature } from "../../core/model/feature.ts";
import type { ColumnChoices } from "./intake-messages.ts";

/** Most different values that a person is offered to pick from. */
const MOST_VALUES = 60;
const MOST_LETTERS = 80;

/**
 * The different values of every column with their counts, most frequent first, then in the order they come. A column with more than sixty,
 * or with a value longer than eighty letters, has none: it is no list of kinds. Empty values are not among them.
 */
export function columnChoices(features: readonly SourceFeature[]): ColumnChoices[] {
  const columns = new Map<string, Map<string, number> | null>();
  for (const { properties } of features) {
    for (const column of Object.keys(properties)) {
      const counts = columns.get(column);
      if (counts === null) continue;
      const seen = counts ?? new Map<string, number>();
      columns.set(column, noteValue(seen, properties[column]) ? seen : null);
    }
  }
  return [...columns].map(([column, counts]) => ({
    column,
    values:
      counts === null
        ? null
        : [...counts].map(([value, count]) => ({ value, count })).sort((one, other) => other.count - one.count),
  }));
}

/** Counts a value; false when the column turns out to be no list of kinds. */
function noteValue(counts: Map<string, number>, value: unknown): boolean {
  if (value === null || value === undefined || value === "") return true;
  if (typeof value === "object") return false;
  const text = String(value).trim();
  if (text === "") return true;
  if (text.length > MOST_LETTERS) return false;
  counts.set(text, (counts.get(text) ?? 0) + 1);
  return counts.size <= MOST_VALUES;
}
