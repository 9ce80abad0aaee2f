/** Texts that inventories write where nothing is known; compared without regard to case and outer blanks. Common practice, no source. */
const MARKERS: ReadonlySet<string> = new Set([
  "",
  "-",
  "--",
  "---",
  "—",
  "–",
  ".",
  "?",
  "??",
  "n/a",
  "na",
  "n.a.",
  "n/d",
  "nd",
  "#n/a",
  "nan",
  "nil",
  "null",
  "<null>",
  "none",
  "no data",
  "nodata",
  "not available",
  "not applicable",
  "not collected",
  "not recorded",
  "unassigned",
  "unk",
  "unkn",
  "unknown",
  "undefined",
  "missing",
  "tbd",
  "-1",
  "-9",
  "-99",
  "-999",
  "-9999",
  "-99999",
]);

const MISSING_NUMBERS: ReadonlySet<number> = new Set([-1, -9, -99, -999, -9999, -99999]);

/**
 * Whether a value says that nothing is known: undefined, null, a marker such as `N/A`, `-` or `unknown`, or one of the negative
 * numbers that tables use for it (-1, -9, -99 ...). NaN is missing; 0 and false are not: what they mean is said per column.
 */
export function isMissing(value: unknown): boolean {
  if (value === undefined || value === null) return true;
  if (typeof value === "number") return Number.isNaN(value) || MISSING_NUMBERS.has(value);
  if (typeof value !== "string" || value.length > 256) return false;
  const text = value.trim().toLowerCase();
  return MARKERS.has(text) || (text.endsWith(".0") && MARKERS.has(text.slice(0, -2)));
}
