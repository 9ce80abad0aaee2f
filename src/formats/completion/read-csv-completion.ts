import type { Plan } from "../../core/model/plan.ts";
import type { Completion, VisitCompletion } from "../../core/plan/completion/completion.ts";
import { COMPLETION_LIMITS } from "../../core/plan/completion/completion-schema.ts";
import type { WorkRecord } from "../../core/plan/record/work-record.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";
import { withThousands } from "../../core/units/with-thousands.ts";
import { withoutFormulaGuard } from "../csv.ts";
import { type CsvRecord, csvRecords } from "../read/csv/csv-records.ts";
import { findDelimiter } from "../read/csv/find-delimiter.ts";
import { decodeText } from "../read/text/decode-text.ts";
import { findColumns } from "./csv-columns.ts";
import { type CsvEntry, csvEntry } from "./csv-entry.ts";
import { type VisitMeant, visitMeant } from "./visit-meant.ts";

/** How many faults of one file are told. */
const MOST_FAULTS = 50;

/** Completions that a table holds, one a plan, revision, zone and report; or its faults, a sentence each; and columns nobody reads. */
export type CsvCompletions =
  | { readonly completions: readonly Completion[]; readonly others: readonly string[] }
  | { readonly faults: readonly string[] };

/**
 * Completions from a table written by hand: a row a visit, columns by their names (`COMPLETION_COLUMNS`), lengths with their units, any usual
 * delimiter. A row without an outcome says nothing; any other that cannot be read refuses the file with its line. Where a row names no visit, the
 * one that was open at the tree on its date is meant; where the file names no plan, revision or zone, the plan at hand. Each zone's rows are a copy
 * of their own: of the `report` column, else of the file itself by its digest, so that another file never takes its place.
 */
export function readCsvCompletion(
  bytes: Uint8Array,
  sha256: string,
  plan: Plan,
  record: WorkRecord,
  modifiedAt: string | null,
): CsvCompletions {
  let rows: CsvRecord[];
  try {
    const text = [...decodeText(bytes).pieces()].join("");
    const { mark, start } = findDelimiter(text);
    rows = [...csvRecords([text.slice(start)], mark)];
  } catch (error) {
    return { faults: [error instanceof Error ? error.message : String(error)] };
  }
  const [head, ...body] = rows;
  if (head === undefined) return { faults: ["The table is empty."] };
  const { columns, others } = findColumns(head.cells.map(withoutFormulaGuard));
  const missing = (["outcome", "date"] as const).filter((column) => !columns.has(column));
  if (missing.length > 0 || !(columns.has("tree") || columns.has("visit"))) {
    const what = [...missing, ...(columns.has("tree") || columns.has("visit") ? [] : ["tree or visit"])].join(", ");
    return {
      faults: [
        `This is not a completion: its first line has no column ${what}. It needs tree or visit, outcome and date.`,
      ],
    };
  }
  if (body.length > COMPLETION_LIMITS.visits) {
    return {
      faults: [
        `The table has ${withThousands(body.length)} rows; at most ${withThousands(COMPLETION_LIMITS.visits)} are read.`,
      ],
    };
  }
  const faults: string[] = [];
  const entries: CsvEntry[] = [];
  for (const { cells, line, isDoubtful } of body) {
    if (isDoubtful) faults.push(`Line ${line}: a quote stands where none belongs.`);
    const read = csvEntry(cells.map(withoutFormulaGuard), line, columns);
    if (read === null) continue;
    if ("faults" in read) faults.push(...read.faults);
    else entries.push(read.entry);
  }
  if (faults.length === 0 && entries.length === 0)
    faults.push("No row says what came of its visit: the column outcome is empty.");
  const meant = visitMeant(plan, record);
  const rowsMeant = entries.map((entry) => {
    const visitId = entry.visit ?? meant.visitOn(entry.tree!, entry.date);
    return { entry, visitId, zone: entry.zone ?? meant.zoneOf(visitId) };
  });
  faults.push(...rowsMeant.flatMap((row) => zoneFault(row, plan, meant)));
  if (faults.length > 0) return { faults: faults.slice(0, MOST_FAULTS) };
  return { completions: completionsOf(rowsMeant, sha256, plan, modifiedAt), others };
}

/** A row with the visit it is about, and the zone that was named or looked up; null where there is none. */
interface RowMeant {
  readonly entry: CsvEntry;
  readonly visitId: string;
  readonly zone: string | null;
}

/** What is wrong with a row of the plan at hand whose visit is in no zone. */
function zoneFault({ entry, visitId, zone }: RowMeant, plan: Plan, meant: VisitMeant): string[] {
  const isOfThis = (entry.plan ?? plan.planId) === plan.planId && (entry.revision ?? plan.revision) === plan.revision;
  if (zone !== null || !isOfThis || !meant.isPlanned(visitId)) return [];
  return [`Line ${entry.line}: visit ${visitId} is in no work zone. Put it into one, then record it.`];
}

/** Rows parted by plan, revision, zone and report, each part a copy of its own. */
function completionsOf(
  meant: readonly RowMeant[],
  sha256: string,
  plan: Plan,
  modifiedAt: string | null,
): Completion[] {
  const groups = new Map<string, { from: CsvEntry; zone: string; rows: RowMeant[] }>();
  for (const row of meant) {
    const { entry } = row;
    const zone = row.zone ?? plan.zones[0]?.zoneId ?? "none";
    const key = JSON.stringify([entry.plan, entry.revision, zone, entry.report]);
    const group = groups.get(key) ?? { from: entry, zone, rows: [] };
    groups.set(key, group);
    group.rows.push(row);
  }
  return [...groups.values()].map(({ from, zone, rows }): Completion => {
    const latest = rows
      .map(({ entry }) => entry.date)
      .sort()
      .at(-1)!;
    const hours = rows.flatMap(({ entry }) => entry.crewHours ?? []);
    return {
      format: "boughline-completion",
      version: 1,
      appVersion: "by hand",
      planId: from.plan ?? plan.planId,
      revision: from.revision ?? plan.revision,
      zoneId: zone,
      reportId: [
        from.report ?? `csv-${sha256.slice(0, 16)}`,
        zone,
        ...(from.revision === null ? [] : [`r${from.revision}`]),
      ].join("-"),
      exportedAt: writtenAt(from.written) ?? modifiedAt ?? `${latest}T23:59:59Z`,
      who: from.who,
      crewHours: hours.length === 0 ? null : hours.reduce((sum, one) => sum + one, 0),
      notes: "",
      visits: rows.map(({ entry, visitId }) => visitOf(entry, visitId)),
      addedTrees: [],
      hazards: [],
    };
  });
}

function visitOf(entry: CsvEntry, visitId: string): VisitCompletion {
  const { outcome, reason, date, who, crownBaseM, headroomM, doseShare, notes, photos } = entry;
  const treeId = entry.tree ?? visitId.slice(0, Math.max(0, visitId.lastIndexOf("/v")));
  const figures = { crownBaseM, headroomM, doseShare };
  return { visitId, treeId, outcome, reason, date, who, ...figures, notes, photos, recordedAt: `${date}T00:00:00Z` };
}

/** A date, or a date with a time in UTC, as a time; null for anything else. */
function writtenAt(text: string | null): string | null {
  if (text === null) return null;
  if (parseIsoDate(text) !== null) return `${text}T00:00:00Z`;
  return /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(text) ? text : null;
}
