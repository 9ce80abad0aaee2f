import type { Finding } from "../model/finding.ts";
import type { Standard, StandardChange } from "./standard.ts";

/** So many changes are written out; the rest are counted. */
const MOST_TOLD = 6;
/** A value longer than this is not written out: whole rules, lists. */
const LONGEST_VALUE = 40;

/**
 * One finding that says what a standard changes in the one it is made of, so that nobody reads a plan by rules that are not its own; none
 * where it changes nothing. `standard.json` has every change with its source. Changes of sources alone are not counted.
 */
export function toldChanges(standard: Standard): Finding[] {
  const values = standard.changes.filter(({ path }) => !path.endsWith(".source"));
  if (values.length === 0) return [];
  const told = values.slice(0, MOST_TOLD).map(changeWords);
  const more = values.length - told.length;
  return [
    {
      code: "standard-changed",
      severity: "info",
      layer: "standard",
      file: null,
      feature: standard.id,
      field: null,
      value: String(values.length),
      reason: `"${standard.title}" changes ${standard.mergedFrom.join(" and ")}: ${told.join("; ")}${more > 0 ? `; and ${more} more` : ""}.`,
      whatToDo: "Check each change and its source in standard.json.",
    },
  ];
}

function changeWords({ path, from, to }: StandardChange): string {
  const is = valueWords(to);
  if (from === null) return `${path} added`;
  return is === null ? path : `${path} ${valueWords(from) ?? ""} to ${is}`.replace("  ", " ");
}

function valueWords(value: unknown): string | null {
  const text = typeof value === "string" ? value : JSON.stringify(value);
  return text.length > LONGEST_VALUE ? null : text;
}
