import { openReworks } from "../acceptance/with-rework.ts";
import { type TreeAfterWork, treeAfterWork } from "./tree-after-work.ts";
import type { RecordedVisit, WorkRecord } from "./work-record.ts";

/** The trees that something is recorded of, as their work leaves them, by id. */
export function statesOfRecord(record: WorkRecord): Map<string, TreeAfterWork> {
  const visits = new Map<string, RecordedVisit[]>();
  for (const visit of record.visits) {
    if (visit.replacedIn !== null) continue;
    const own = visits.get(visit.entry.treeId);
    if (own === undefined) visits.set(visit.entry.treeId, [visit]);
    else own.push(visit);
  }
  const reworks = openReworks(record);
  return new Map(
    record.bases
      .filter(({ replacedIn }) => replacedIn == null)
      .map(({ tree, newer }) => {
        const state = treeAfterWork(tree, visits.get(tree.id) ?? [], newer);
        const rework = reworks.get(tree.id);
        return [tree.id, rework === undefined ? state : { ...state, rework }];
      }),
  );
}
