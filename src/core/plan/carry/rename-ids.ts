import type { ConflictRecord } from "../../model/conflict.ts";
import type { Completion } from "../completion/completion.ts";
import type { EarlierVisits } from "../record/record-preview.ts";
import type { RecordedName, WorkRecord } from "../record/work-record.ts";
import { presentName } from "./tree-names.ts";

/** Gives the id that a tree has now for the one it had. */
export type Rename = (treeId: string) => string;

/** Id of a visit, `TREE/vN`, or of a task, `TREE/what`, under the tree's new id. */
export function renamedPart(id: string, rename: Rename): string {
  const at = id.lastIndexOf("/");
  return at < 0 ? id : rename(id.slice(0, at)) + id.slice(at);
}

/** Id of a conflict, `KIND:TREE:LAYER/THING`, of a tree that had the id `from`, under `to`. */
export function renamedConflict(conflictId: string, from: string, to: string): string {
  const at = conflictId.indexOf(":") + 1;
  return conflictId.startsWith(`${from}:`, at)
    ? conflictId.slice(0, at) + to + conflictId.slice(at + from.length)
    : conflictId;
}

/** Id of a conflict with the thing that it is with under the id that the thing has now; `things` has `LAYER/ID` now by `LAYER/ID` before. */
export function renamedThing(
  conflictId: string,
  { withLayer, withId }: Pick<ConflictRecord, "withLayer" | "withId">,
  things: ReadonlyMap<string, string>,
): string {
  const was = `${withLayer}/${withId}`;
  const now = things.get(was);
  return now === undefined ? conflictId : conflictId.slice(0, conflictId.length - was.length) + now;
}

/**
 * The record with trees under the ids that they bear from now on. A visit keeps the ids it was reported under as `formerly`, and the ids that changed are
 * added to the record's names.
 */
export function renamedRecord(record: WorkRecord, names: readonly RecordedName[]): WorkRecord {
  if (names.length === 0) return record;
  const toOf = new Map(names.map(({ from, to }) => [from, to]));
  const rename: Rename = (id) => toOf.get(id) ?? id;
  return {
    ...record,
    visits: record.visits.map((visit) => {
      const { treeId: from, visitId } = visit.entry;
      const to = toOf.get(from);
      if (to === undefined) return visit;
      return {
        ...visit,
        entry: { ...visit.entry, treeId: to, visitId: renamedPart(visitId, rename) },
        planned: {
          ...visit.planned,
          tasks: visit.planned.tasks.map((task) => ({
            ...task,
            taskId: renamedPart(task.taskId, rename),
            conflictIds: task.conflictIds.map((id) => renamedConflict(id, from, to)),
          })),
        },
        formerly: visit.formerly ?? { treeId: from, visitId },
      };
    }),
    bases: record.bases.map((base) => {
      const from = base.tree.id;
      const to = toOf.get(from);
      if (to === undefined) return base;
      const firstSeen = Object.entries(base.firstSeen).map(([id, since]) => [renamedConflict(id, from, to), since]);
      return { ...base, tree: { ...base.tree, id: to }, firstSeen: Object.fromEntries(firstSeen) };
    }),
    additions: record.additions.map((one) =>
      one.kind === "hazard" && one.added.treeId !== null && toOf.has(one.added.treeId)
        ? { ...one, added: { ...one.added, treeId: rename(one.added.treeId) } }
        : one,
    ),
    ...(record.checks === undefined
      ? {}
      : {
          checks: record.checks.map((check) =>
            toOf.has(check.treeId)
              ? { ...check, treeId: rename(check.treeId), visitId: renamedPart(check.visitId, rename) }
              : check,
          ),
        }),
    names: [...(record.names ?? []), ...names],
  };
}

/** A crew's report with the trees under the ids they bear now; it names them as the revision did that its packet was made from. */
export function renamedCompletion(completion: Completion, names: readonly RecordedName[]): Completion {
  const rename = presentName(names, completion.revision);
  return {
    ...completion,
    visits: completion.visits.map((entry) => ({
      ...entry,
      treeId: rename(entry.treeId),
      visitId: renamedPart(entry.visitId, rename),
    })),
    hazards: completion.hazards.map((one) => (one.treeId === null ? one : { ...one, treeId: rename(one.treeId) })),
  };
}

/** The visits of an earlier revision under the ids that their trees bear now. */
export function renamedVisits(visits: EarlierVisits, revision: number, names: readonly RecordedName[]): EarlierVisits {
  const rename = presentName(names, revision);
  return new Map(
    [...visits].map(([visitId, found]) => {
      const { visit } = found;
      const from = visit.treeId;
      const to = rename(from);
      if (to === from) return [visitId, found];
      const id = renamedPart(visitId, rename);
      const tasks = visit.tasks.map((task) => ({
        ...task,
        taskId: renamedPart(task.taskId, rename),
        conflictIds: task.conflictIds.map((one) => renamedConflict(one, from, to)),
      }));
      return [id, { ...found, visit: { ...visit, treeId: to, visitId: id, tasks } }];
    }),
  );
}
