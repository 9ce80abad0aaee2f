import { findConflicts } from "./conflict/find-conflicts.ts";
import { seenAfterWork } from "./measured-after-work.ts";
import type { ConflictRecord } from "./model/conflict.ts";
import type { Prescription } from "./model/prescription.ts";
import type { SightArea } from "./model/surroundings.ts";
import { treeTable } from "./model/tree-table.ts";
import { type TreeOutcome, treeOutcome } from "./plan/carry/tree-outcome.ts";
import { treesNear } from "./plan/record/sight-neighbors.ts";
import type { TreeAfterWork } from "./plan/record/tree-after-work.ts";
import { goneTree, withOpenWork } from "./plan/record/work-on-prescription.ts";
import { type PlanGround, remeasureTrees } from "./remeasure-trees.ts";
import type { IsoDate } from "./units/calendar.ts";

/** A tree as it is at one step of an exchange of inputs; its row is that of the later plan. */
export interface TreeAtStep {
  readonly row: number;
  readonly state: TreeAfterWork;
}

/**
 * What the trees get at a step, by row, from the later of its date and the day of their last work. `like` gives a tree that is gone the rest of its
 * prescription, `idOf` a conflict the id by which steps are compared.
 */
export function outcomesOfStep(
  trees: readonly TreeAtStep[],
  asOf: IsoDate,
  ground: PlanGround,
  like: readonly Prescription[],
  idOf: (conflict: ConflictRecord) => string,
): Map<number, TreeOutcome> {
  const outcomes = new Map<number, TreeOutcome>();
  const standing = trees.flatMap(({ row, state }) => {
    if (state.gone === null)
      return [{ row, state, asOf: state.doneOn !== null && state.doneOn > asOf ? state.doneOn : asOf }];
    outcomes.set(row, treeOutcome(goneTree(like[row]!, state.gone), []));
    return [];
  });
  const measured = remeasureTrees(standing, ground);
  for (const { row, state } of standing) {
    const { prescription, conflicts } = measured.get(row)!;
    const named = conflicts.map((one) => ({ ...one, conflictId: idOf(one) }));
    outcomes.set(row, treeOutcome(withOpenWork(prescription, state.open), named));
  }
  return outcomes;
}

/** What the trees hide of every area of sight on a ground, all trees as work left them. */
export function sightAtStep(states: readonly TreeAfterWork[], ground: Omit<PlanGround, "sight">): readonly SightArea[] {
  const { surroundings, standard, options } = ground;
  if (surroundings.sight.length === 0) return [];
  const seen = states.flatMap((state) => (state.gone === null ? [seenAfterWork(state)] : []));
  const { sight } = surroundings;
  const near = treesNear({ trees: seen, sight }, new Set(sight.map(({ id }) => id)));
  const trees = near.map((at, row) => ({ ...seen[at]!, row }));
  return findConflicts(treeTable(trees), surroundings, standard, options, new Map()).sight;
}
