import type { RecordedCheck } from "../acceptance/recorded-check.ts";
import {
  EMPTY_RECORD,
  type RecordedAddition,
  type RecordedBase,
  type RecordedName,
  type RecordedReport,
  type RecordedVisit,
  type WorkRecord,
} from "./work-record.ts";

/** Version of the layout of `record.jsonl`; a reader refuses a newer one. */
export const RECORD_FORMAT = 3;

/** One line of `record.jsonl` behind the first, which names the format. */
type RecordLine =
  | ({ readonly line: "report" } & RecordedReport)
  | ({ readonly line: "visit" } & RecordedVisit)
  | ({ readonly line: "tree" } & RecordedBase)
  | { readonly line: "addition"; readonly addition: RecordedAddition }
  | ({ readonly line: "name" } & RecordedName)
  | ({ readonly line: "check" } & RecordedCheck);

/** The text of `record.jsonl`: a line that names the format, then a line a report, a visit, an addition, a tree as it was before, an id that changed and a check of finished work. */
export function recordText({ reports, visits, bases, additions, names = [], checks = [] }: WorkRecord): string {
  const lines: readonly (RecordLine | { readonly format: number })[] = [
    // Readers of format 1 know all but names and checks, those of format 2 all but checks.
    { format: checks.length > 0 ? RECORD_FORMAT : names.length === 0 ? 1 : 2 },
    ...reports.map((one) => ({ line: "report" as const, ...one })),
    ...visits.map((one) => ({ line: "visit" as const, ...one })),
    ...additions.map((addition) => ({ line: "addition" as const, addition })),
    ...bases.map((one) => ({ line: "tree" as const, ...one })),
    ...names.map((one) => ({ line: "name" as const, ...one })),
    ...checks.map((one) => ({ line: "check" as const, ...one })),
  ];
  return lines.map((line) => `${JSON.stringify(line)}\n`).join("");
}

/** The record that a text holds. Throws SyntaxError on broken JSON and RangeError on a newer format or a line of an unknown kind. */
export function readRecord(text: string): WorkRecord {
  const [head, ...lines] = text.split("\n").filter((line) => line !== "");
  if (head === undefined) return EMPTY_RECORD;
  const { format } = JSON.parse(head) as { format?: unknown };
  if (!(typeof format === "number" && format <= RECORD_FORMAT)) {
    throw new RangeError(
      `Expected a record of format ${RECORD_FORMAT} or older, got ${String(format)}: use a newer Boughline`,
    );
  }
  const record = {
    reports: [] as RecordedReport[],
    visits: [] as RecordedVisit[],
    bases: [] as RecordedBase[],
    additions: [] as RecordedAddition[],
  };
  const names: RecordedName[] = [];
  const checks: RecordedCheck[] = [];
  for (const text of lines) {
    const { line, ...rest } = JSON.parse(text) as { line: string };
    if (line === "report") record.reports.push(rest as unknown as RecordedReport);
    else if (line === "visit") record.visits.push(rest as unknown as RecordedVisit);
    else if (line === "tree") record.bases.push(rest as unknown as RecordedBase);
    else if (line === "addition") record.additions.push((rest as unknown as { addition: RecordedAddition }).addition);
    else if (line === "name") names.push(rest as unknown as RecordedName);
    else if (line === "check") checks.push(rest as unknown as RecordedCheck);
    else throw new RangeError(`Expected a line of a record, got one of kind "${String(line).slice(0, 40)}"`);
  }
  return { ...record, ...(names.length === 0 ? {} : { names }), ...(checks.length === 0 ? {} : { checks }) };
}
