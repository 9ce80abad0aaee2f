import type { Plan } from "../../model/plan.ts";
import type { Crew } from "../../model/terms.ts";
import type { IsoDate } from "../../units/calendar.ts";
import { treeBeforeWords } from "../word/tree-as-measured.ts";
import type { RecordPreview } from "./record-preview.ts";
import { canBothBe } from "./same-report.ts";
import type { RecordedBase, RecordedReport, RecordedVisit, WorkRecord } from "./work-record.ts";

/**
 * The record with what a preview shows as `take`, and the ids of the trees that it changes, in plan order. Lines are only added; one that
 * another takes the place of, or that is taken back, is marked with the revision. Throws RangeError for a preview of another revision.
 */
export function takeIntoRecord(
  plan: Plan,
  record: WorkRecord,
  preview: RecordPreview,
  revision: number,
): { record: WorkRecord; treeIds: string[] } {
  if (preview.planId !== plan.planId || preview.revision !== plan.revision) {
    throw new RangeError(
      `Expected a preview of plan ${plan.planId}, revision ${plan.revision}, got one of ${preview.planId}, revision ${preview.revision}`,
    );
  }
  const taken = preview.visits.filter(({ status }) => status === "take");
  const changed = new Set(taken.map(({ treeId }) => treeId));
  const newLines = taken.flatMap(({ becomes }) => (becomes === null ? [] : [{ ...becomes, revision }]));
  const takenBack = new Set(taken.flatMap((one) => (one.becomes === null ? [`${one.visitId}\n${one.reportId}`] : [])));
  const newOf = new Map<string, RecordedVisit[]>();
  for (const one of newLines) newOf.set(one.entry.visitId, [...(newOf.get(one.entry.visitId) ?? []), one]);
  const visits = record.visits.map((line): RecordedVisit => {
    if (line.replacedIn !== null) return line;
    const isTakenBack = takenBack.has(`${line.entry.visitId}\n${line.reportId}`);
    const isReplaced = newOf.get(line.entry.visitId)?.some((one) => replaces(one, line)) ?? false;
    return isTakenBack || isReplaced ? { ...line, replacedIn: revision } : line;
  });
  const additions = preview.additions
    .filter(({ status }) => status === "take")
    .map(({ addition }) => ({ ...addition, revision }));
  const keyOf = (one: WorkRecord["additions"][number]): string => `${one.reportId}\n${one.added.addedId}`;
  const renewed = new Set(additions.map(keyOf));
  return {
    record: {
      ...record,
      reports: [...record.reports, ...newReports(plan, preview, revision)],
      visits: [...visits, ...newLines],
      additions: [
        ...record.additions.map((one) =>
          one.replacedIn === null && renewed.has(keyOf(one)) ? { ...one, replacedIn: revision } : one,
        ),
        ...additions,
      ],
      bases: [...record.bases, ...newBases(plan, record, changed)],
    },
    treeIds: plan.trees.flatMap(({ id }) => (changed.has(id) ? [id] : [])),
  };
}

/** Whether a new line takes the place of one in force: of the same copy, or decided for against it. */
const replaces = (one: RecordedVisit, line: RecordedVisit): boolean =>
  one.entry.visitId === line.entry.visitId &&
  (one.reportId === line.reportId || (one.decided !== null && !canBothBe(one.entry, line.entry)));

function newReports(plan: Plan, preview: RecordPreview, revision: number): RecordedReport[] {
  const crewOf = new Map<string, Crew>(plan.zones.map(({ zoneId, crew }) => [zoneId, crew]));
  return preview.files
    .filter(({ status }) => status === "take")
    .map(({ file, sha256, completion }) => ({
      reportId: completion.reportId,
      exportedAt: completion.exportedAt,
      file,
      sha256,
      fromRevision: completion.revision,
      revision,
      zoneId: completion.zoneId,
      crew: crewOf.get(completion.zoneId) ?? null,
      who: completion.who,
      crewHours: completion.crewHours,
      notes: completion.notes,
    }));
}

/** Trees that something is recorded of for the first time, as they are before it. */
export function newBases(plan: Plan, record: WorkRecord, changed: ReadonlySet<string>): RecordedBase[] {
  const known = new Set(record.bases.flatMap(({ tree, replacedIn }) => (replacedIn == null ? [tree.id] : [])));
  const firstSeen = new Map<string, Record<string, IsoDate>>();
  for (const { treeId, conflictId, firstSeen: since } of plan.conflicts) {
    if (!changed.has(treeId) || known.has(treeId)) continue;
    const own = firstSeen.get(treeId) ?? {};
    own[conflictId] = since;
    firstSeen.set(treeId, own);
  }
  return plan.trees
    .filter(({ id }) => changed.has(id) && !known.has(id))
    .map((tree) => ({ tree: treeBeforeWords(tree), firstSeen: firstSeen.get(tree.id) ?? {} }));
}
