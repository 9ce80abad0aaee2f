import { columnName } from "../../core/inventory/column-name.ts";
import type { GivenCheck } from "../../core/plan/acceptance/preview-checks.ts";
import type { CheckResult } from "../../core/plan/acceptance/recorded-check.ts";
import { parseDate } from "../../core/units/parse-date.ts";
import { withoutFormulaGuard } from "../csv.ts";
import { type CsvRecord, csvRecords } from "../read/csv/csv-records.ts";
import { findDelimiter } from "../read/csv/find-delimiter.ts";
import { decodeText } from "../read/text/decode-text.ts";

/** Columns of a table of checks, in the order of the template. */
export const CHECK_COLUMNS = ["zone", "visit", "tree", "check", "reason", "checked_on", "checked_by", "notes"] as const;
type CheckColumn = (typeof CHECK_COLUMNS)[number];

const RESULTS: Readonly<Record<string, CheckResult>> = {
  passed: "passed",
  pass: "passed",
  accepted: "passed",
  ok: "passed",
  rework: "rework",
  failed: "rework",
  fail: "rework",
  rejected: "rework",
};
const MOST_FAULTS = 50;
const MOST_ROWS = 10_000;
const LONGEST = 4000;

/** Whether a file is a table of checks: its first line has the columns `check` and `checked_on`. */
export function isCheckTable(bytes: Uint8Array): boolean {
  const head = new TextDecoder("utf-8")
    .decode(bytes.subarray(0, 4096))
    .split(/[\r\n]/, 1)[0]!
    .toLowerCase();
  return !head.trimStart().startsWith("{") && /\bcheck\b/.test(head) && /\bchecked[_ ]on\b/.test(head);
}

/**
 * The checks in a table written by hand, any usual delimiter, columns by their names. A row whose `check` is empty says nothing; any other that cannot be read is a
 * fault with its line, and then nothing of the file counts.
 */
export function readChecks(
  file: string,
  bytes: Uint8Array,
  sha256: string,
): { readonly checks: readonly GivenCheck[] } | { readonly faults: readonly string[] } {
  let rows: CsvRecord[];
  try {
    const text = [...decodeText(bytes).pieces()].join("");
    const { mark, start } = findDelimiter(text);
    rows = [...csvRecords([text.slice(start)], mark)];
  } catch (error) {
    return { faults: [error instanceof Error ? error.message : String(error)] };
  }
  const [head, ...body] = rows;
  const at = new Map((head?.cells ?? []).map((name, place) => [columnName(withoutFormulaGuard(name)).whole, place]));
  const missing = ["check", "checked_on", "checked_by"].filter((name) => !at.has(name.replaceAll("_", "")));
  if (missing.length > 0) return { faults: [`This is no table of checks: it has no column ${missing.join(", ")}.`] };
  if (body.length > MOST_ROWS) return { faults: [`The table has ${body.length} rows; at most ${MOST_ROWS} are read.`] };
  const faults: string[] = [];
  const checks: GivenCheck[] = [];
  for (const { cells, line, isDoubtful } of body) {
    const textOf = (column: CheckColumn): string =>
      withoutFormulaGuard(cells[at.get(column.replaceAll("_", "")) ?? -1] ?? "")
        .trim()
        .slice(0, LONGEST);
    const said = textOf("check").toLowerCase();
    if (said === "") continue;
    const fault = (reason: string): void => void faults.push(`Line ${line}: ${reason}`);
    if (isDoubtful) fault("a quote stands where none belongs.");
    const result = Object.hasOwn(RESULTS, said) ? RESULTS[said]! : null;
    if (result === null) fault(`check is "${said.slice(0, 40)}"; expected passed or rework.`);
    const parsed = parseDate(textOf("checked_on"), null);
    const on = "date" in parsed && parsed.filledIn === "nothing" ? parsed.date : null;
    if (on === null) fault("checked_on is no whole date such as 2027-03-12.");
    const by = textOf("checked_by");
    if (by === "") fault("checked_by is empty: say who looked.");
    const reason = textOf("reason");
    if (result === "rework" && reason === "") fault("reason is empty: say what is to be made good.");
    const [visitId, treeId, zoneId] = [textOf("visit"), textOf("tree"), textOf("zone")].map((one) => one || null);
    if (visitId === null && treeId === null) fault("neither visit nor tree is given.");
    if (result === null || on === null) continue;
    checks.push({
      file,
      sha256,
      line,
      visitId: visitId!,
      treeId: treeId!,
      zoneId: zoneId!,
      result,
      reason: result === "passed" ? "" : reason,
      on,
      by,
      notes: textOf("notes"),
    });
  }
  if (faults.length === 0 && checks.length === 0) faults.push("No row says what was found: the column check is empty.");
  return faults.length > 0 ? { faults: faults.slice(0, MOST_FAULTS) } : { checks };
}
