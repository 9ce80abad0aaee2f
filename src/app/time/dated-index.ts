import type { TreesOnDate } from "../../core/schedule/outlook.ts";
import type { VisitAhead } from "../../core/schedule/tree-on-date.ts";
import { inPieces } from "../in-pieces.ts";
import { type IndexedTree, type PlanIndex, plannedWork } from "../plan-index.ts";
import { sortedTrees } from "../sheet/sorted-trees.ts";
import type { WorkItem } from "../tree-filter.ts";

/** The look-ups of a plan with its trees as they stand on a date; null when `isWanted` said no meanwhile. */
export async function datedIndex(
  index: PlanIndex,
  dated: TreesOnDate,
  isWanted: () => boolean,
): Promise<PlanIndex | null> {
  const trees: IndexedTree[] = [];
  const treeById = new Map<string, IndexedTree>();
  const isWhole = await inPieces(
    index.trees.length,
    (at) => {
      const entry = datedTree(index.trees[at]!, dated);
      trees.push(entry);
      treeById.set(entry.tree.id, entry);
    },
    isWanted,
  );
  return isWhole ? { ...index, trees: sortedTrees(trees, "urgency"), treeById } : null;
}

/** A tree of the lists as it stands on a date. */
export function datedTree(entry: IndexedTree, dated: TreesOnDate): IndexedTree {
  const { urgency, overdue, ahead } = dated.treeOn(entry.tree.row);
  return { ...entry, urgency, overdue, work: [...doneWork(entry, ahead), ...ahead.map(aheadWork)] };
}

/** Visits of the plan that are done; those that were forecast have left no figures to show. */
const doneWork = ({ prescription }: IndexedTree, ahead: readonly VisitAhead[]): WorkItem[] =>
  prescription.visits
    .filter((visit) => !ahead.some((one) => one.visit === visit))
    .map((visit) => ({ ...plannedWork(visit), overdue: false, isDone: true }));

const aheadWork = ({ cause, due, crew, hours, doseShare, urgency, overdue, visit }: VisitAhead): WorkItem => ({
  cause,
  due,
  crew,
  hours,
  doseShare,
  urgency,
  overdue,
  isDone: false,
  visit,
});
