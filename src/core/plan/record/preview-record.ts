import type { Finding } from "../../model/finding.ts";
import { dateFindings } from "../completion/date-findings.ts";
import { figureFindings } from "../completion/figure-findings.ts";
import { originFindings } from "../completion/origin-findings.ts";
import { judgeEntry } from "./judge-entry.ts";
import { type KnownWork, knownWork } from "./known-work.ts";
import { byExport, byText } from "./order-of-reports.ts";
import { previewAdditions } from "./preview-additions.ts";
import {
  type AdditionPreview,
  type FilePreview,
  type GivenCompletion,
  RECORD_STATUSES,
  type RecordInput,
  type RecordPreview,
  type RecordStatus,
  type VisitPreview,
} from "./record-preview.ts";
import { settleVisits } from "./settle-visits.ts";

/**
 * What taking completions into a plan would do, entry by entry, with the reason; nothing is taken here. The same whatever order the files are given
 * in. Of several files of one copy the latest counts. A file of another plan, of a revision still to come, or with a visit that its own revision
 * does not have, is refused whole.
 */
export function previewRecord(input: RecordInput): RecordPreview {
  const { plan, record } = input;
  const known = knownWork(input);
  const given = [...input.given].sort(
    (a, b) => byExport(a.completion, b.completion) || byText(a.sha256, b.sha256) || byText(a.file, b.file),
  );
  const newest = new Map(given.map((one) => [one.completion.reportId, one]));
  const findings: Finding[] = [];
  const judged: VisitPreview[] = [];
  const additions: AdditionPreview[] = [];
  const drafts: { given: GivenCompletion; refused: string | null; isOld: boolean }[] = [];
  for (const one of given) {
    const refused = refusalOf(one, known, findings);
    const isOld = newest.get(one.completion.reportId) !== one;
    drafts.push({ given: one, refused, isOld });
    if (refused !== null || isOld) continue;
    const entries = one.completion.visits.map((entry) => judgeEntry(entry, one, known));
    judged.push(...entries, ...noLongerReported(one, known));
    additions.push(...previewAdditions(one, record, plan.revision + 1));
  }
  const visits = settleVisits(judged, input);
  for (const { status, entry, file, becomes } of visits) {
    if (status === "take" && entry !== null && becomes !== null) {
      const dates = dateFindings(entry, becomes.exportedAt, plan.options.asOf);
      findings.push(...dates.map((finding) => ({ ...finding, file })));
    }
    const tree = entry === null ? undefined : known.trees.get(entry.treeId);
    const planned = entry === null ? undefined : known.visits.get(entry.visitId);
    if (status !== "take" || entry === null || tree === undefined || planned === undefined) continue;
    findings.push(...figureFindings(entry, tree, planned.visit.doseShare).map((finding) => ({ ...finding, file })));
  }
  const files = drafts.map((draft) => filePreview(draft, visits, additions, input));
  return {
    planId: plan.planId,
    revision: plan.revision,
    files,
    visits,
    additions,
    totals: totalsOf(visits),
    findings,
    changesAnything: files.some(({ status }) => status === "take"),
  };
}

/** Why a file cannot be taken at all; null when it can. Warnings about where it comes from join the findings. */
function refusalOf(
  { completion, file }: GivenCompletion,
  { input, visits, recorded, zones }: KnownWork,
  findings: Finding[],
): string | null {
  const origin = originFindings(completion, input.plan);
  findings.push(...origin.map((finding) => ({ ...finding, file })));
  const error = origin.find(({ severity }) => severity === "error");
  if (error !== undefined) return `${error.reason} ${error.whatToDo}`;
  const isOlder = completion.revision < input.plan.revision;
  const zone = zones.get(completion.zoneId);
  for (const { visitId, treeId } of completion.visits) {
    if (recorded.has(visitId)) continue;
    const planned = isOlder ? input.earlier.get(completion.revision) : visits;
    if (planned !== undefined && planned.get(visitId)?.visit.treeId !== treeId) {
      return `Revision ${completion.revision} has no visit ${visitId} of tree ${treeId}: the file was damaged or edited. Ask for it again.`;
    }
    if (!isOlder && zone !== undefined && !zone.has(visitId)) {
      return `Visit ${visitId} is not in zone ${completion.zoneId}: the file was damaged or edited. Ask for it again.`;
    }
  }
  return null;
}

/** Visits that an earlier file of the copy reported and this one does not: taken back only when somebody says so. */
function noLongerReported({ completion, file }: GivenCompletion, { input }: KnownWork): VisitPreview[] {
  const { reportId, exportedAt, zoneId } = completion;
  const reported = new Set(completion.visits.map(({ visitId }) => visitId));
  return input.record.visits.flatMap((one): VisitPreview[] => {
    const { entry } = one;
    if (one.replacedIn !== null || one.reportId !== reportId || one.exportedAt >= exportedAt) return [];
    if (reported.has(entry.visitId)) return [];
    const reason = `An earlier file of the same copy reported it on ${entry.date}, this one no longer does.`;
    const { visitId, treeId } = entry;
    const what = { file, reportId, visitId, treeId, zoneId, reason, entry: null, against: entry, becomes: null };
    return [{ ...what, status: "needs-decision", canDecide: true }];
  });
}

function filePreview(
  { given, refused, isOld }: { given: GivenCompletion; refused: string | null; isOld: boolean },
  visits: readonly VisitPreview[],
  additions: readonly AdditionPreview[],
  { record }: RecordInput,
): FilePreview {
  const { file, sha256, completion } = given;
  const told = (status: FilePreview["status"], reason: string) => ({ file, sha256, completion, status, reason });
  if (refused !== null) return told("refused", refused);
  if (isOld) return told("already-taken", "A later file of the same copy is given as well.");
  const mine = visits.filter((one) => one.file === file && one.reportId === completion.reportId);
  const taken = mine.filter(({ status }) => status === "take").length;
  const found = additions.filter((one) => one.file === file && one.status === "take").length;
  if (taken + found > 0) return told("take", `${taken} of ${mine.length} visits and ${found} additions will be taken.`);
  if (mine.some(({ status }) => status !== "already-taken")) {
    return told("already-taken", "Nothing of it can be taken as it stands.");
  }
  const before = record.reports.findLast(({ reportId }) => reportId === completion.reportId);
  const isSaid = completion.notes.trim() !== "" || completion.crewHours !== null;
  const isNew =
    before === undefined ||
    (before.exportedAt < completion.exportedAt &&
      (before.notes !== completion.notes || before.crewHours !== completion.crewHours));
  if (!isSaid || !isNew) return told("already-taken", "The record has all it says.");
  return told("take", "Its hours and notes will be taken.");
}

function totalsOf(visits: readonly VisitPreview[]): Record<RecordStatus, number> {
  const totals = Object.fromEntries(RECORD_STATUSES.map((status) => [status, 0])) as Record<RecordStatus, number>;
  for (const { status } of visits) totals[status] += 1;
  return totals;
}
