import { readRecord } from "../../core/plan/record/record-lines.ts";
import { EMPTY_RECORD, type WorkRecord } from "../../core/plan/record/work-record.ts";
import type { HistoryReport } from "../folder/history.ts";

/** The reports that a record has beyond the one before it, for the history. Throws RangeError where it lacks what the one before holds. */
export function reportsSent(before: Uint8Array | null, after: Uint8Array): HistoryReport[] {
  const [was, is] = [recordIn(before), recordIn(after)];
  const isKept =
    was.reports.every((report, at) => JSON.stringify(report) === JSON.stringify(is.reports[at])) &&
    was.visits.every(({ entry }, at) => JSON.stringify(entry) === JSON.stringify(is.visits[at]?.entry)) &&
    was.additions.length <= is.additions.length &&
    was.bases.length <= is.bases.length;
  if (!isKept) throw new RangeError("Expected a record that only grows, got one without all that was recorded");
  return is.reports
    .slice(was.reports.length)
    .map(({ file, sha256, reportId, zoneId }) => ({ file, sha256, report: reportId, zone: zoneId }));
}

const recordIn = (bytes: Uint8Array | null): WorkRecord =>
  bytes === null ? EMPTY_RECORD : readRecord(new TextDecoder().decode(bytes));
