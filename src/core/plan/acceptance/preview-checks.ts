import { formatDate } from "../../units/format-date.ts";
import type { RecordedVisit, WorkRecord } from "../record/work-record.ts";
import type { RecordedCheck, WorkCheck } from "./recorded-check.ts";

/** A check as a table says it; what is left out is looked up in the record. */
export interface GivenCheck extends Omit<WorkCheck, "zoneId" | "treeId" | "visitId"> {
  readonly file: string;
  readonly sha256: string;
  readonly line: number;
  readonly zoneId: string | null;
  readonly treeId: string | null;
  readonly visitId: string | null;
}

/** What becomes of one row. */
export interface CheckPreview {
  readonly file: string;
  readonly line: number;
  readonly status: "take" | "already-taken" | "refused";
  /** One plain sentence. */
  readonly reason: string;
  /** Null for a row that is refused. */
  readonly check: Omit<RecordedCheck, "revision" | "replacedIn"> | null;
}

/**
 * What taking checks into a record would do, row by row; nothing is taken here. A row names a finished visit, or a tree whose last finished visit is meant. A
 * later check of the same visit takes the place of an earlier one; another of the same day, and one of work that nobody reported as done, is refused.
 */
export function previewChecks(given: readonly GivenCheck[], record: WorkRecord): CheckPreview[] {
  const known = new Map<string, WorkCheck>();
  for (const check of record.checks ?? []) if (check.replacedIn === null) known.set(check.visitId, check);
  return [...given]
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
    .map((row): CheckPreview => {
      const told = (status: CheckPreview["status"], reason: string, check: CheckPreview["check"] = null) => ({
        file: row.file,
        line: row.line,
        status,
        reason,
        check,
      });
      const visit = visitMeant(row, record);
      if (visit === null) {
        const what = row.visitId === null ? `tree ${row.treeId}` : `visit ${row.visitId}`;
        const where = row.zoneId === null ? "" : ` in zone ${row.zoneId}`;
        return told("refused", `Nobody has reported ${what} as done${where}.`);
      }
      const { visitId, treeId, date } = visit.entry;
      if (row.treeId !== null && row.treeId !== treeId) {
        return told("refused", `Visit ${visitId} is one of tree ${treeId}, not of ${row.treeId}.`);
      }
      if (row.on < date) {
        return told("refused", `Checked on ${formatDate(row.on)}, before the work of ${formatDate(date)}.`);
      }
      const { line: _line, ...said } = row;
      const check = { ...said, zoneId: visit.zoneId, treeId, visitId };
      const before = known.get(visitId);
      if (before !== undefined) {
        if (isSame(before, check)) return told("already-taken", "The record has it.", check);
        if (before.on >= check.on) {
          return told(
            "refused",
            `The record has a check of ${formatDate(before.on)} by ${before.by}, which says otherwise; a later one takes its place.`,
          );
        }
      }
      known.set(visitId, check);
      return told(
        "take",
        check.result === "passed" ? "The work passed." : "The work did not pass: the tree gets a new visit.",
        check,
      );
    });
}

const isSame = (one: WorkCheck, other: WorkCheck): boolean =>
  one.result === other.result &&
  one.on === other.on &&
  one.by === other.by &&
  one.reason === other.reason &&
  one.notes === other.notes;

function visitMeant({ visitId, treeId, zoneId }: GivenCheck, record: WorkRecord): RecordedVisit | null {
  let found: RecordedVisit | null = null;
  for (const visit of record.visits) {
    if (visit.replacedIn !== null || visit.entry.outcome !== "done") continue;
    if (zoneId !== null && visit.zoneId !== zoneId) continue;
    if (visitId === null ? visit.entry.treeId !== treeId : visit.entry.visitId !== visitId) continue;
    if (found === null || found.entry.date <= visit.entry.date) found = visit;
  }
  return found;
}

/** The record with what a preview shows as `take`, and the trees it is about. */
export function takeChecks(
  record: WorkRecord,
  preview: readonly CheckPreview[],
  revision: number,
): { record: WorkRecord; treeIds: ReadonlySet<string> } {
  const taken = preview.flatMap(({ status, check }) => (status === "take" && check !== null ? [check] : []));
  const last = new Map(taken.map((check) => [check.visitId, check]));
  const before = (record.checks ?? []).map((one) =>
    one.replacedIn === null && last.has(one.visitId) ? { ...one, replacedIn: revision } : one,
  );
  const added = taken.map((check) => ({
    ...check,
    revision,
    replacedIn: last.get(check.visitId) === check ? null : revision,
  }));
  return {
    record: { ...record, checks: [...before, ...added] },
    treeIds: new Set(taken.map(({ treeId }) => treeId)),
  };
}
