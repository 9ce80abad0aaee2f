import { clearanceAfterWork } from "./clearance-after-work.ts";
import { findConflicts } from "./conflict/find-conflicts.ts";
import { withHiddenShares } from "./conflict/hidden/with-hidden-shares.ts";
import type { Conflict, TreeSetting } from "./model/conflict.ts";
import type { PlanOptions } from "./model/plan.ts";
import type { Prescription } from "./model/prescription.ts";
import type { SightArea } from "./model/surroundings.ts";
import { treeTable } from "./model/tree-table.ts";
import type { Tree } from "./model/trees.ts";
import type { WordsByTree } from "./model/words-in-force.ts";
import { withRework } from "./plan/acceptance/with-rework.ts";
import type { TreeAfterWork } from "./plan/record/tree-after-work.ts";
import { prescribe } from "./prescription/prescribe.ts";
import { schedule } from "./schedule/schedule.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { allConflictsAsSaid, heldWords, prescriptionsAsSaid } from "./words-on-plan.ts";

/** A tree to measure anew, as work left it, with the date it is planned from. */
export interface TreeToMeasure {
  /** Row in the plan. */
  readonly row: number;
  readonly state: TreeAfterWork;
  readonly asOf: IsoDate;
}

/** What the stages say of one tree; rows are the plan's. */
export interface MeasuredTree {
  readonly tree: Tree;
  readonly setting: TreeSetting;
  readonly conflicts: readonly Conflict[];
  readonly prescription: Prescription;
}

/** What stands around the trees of a plan, and the rules they are measured by. */
export interface PlanGround {
  readonly surroundings: Surroundings;
  readonly standard: Standard;
  readonly options: PlanOptions;
  readonly firstSeen: ReadonlyMap<string, IsoDate>;
  /** Areas of sight with what is hidden of them by all trees of the plan. */
  readonly sight: readonly SightArea[];
  /** What arborists said of the trees; absent where nothing was said. */
  readonly words?: WordsByTree;
}

/**
 * The trees with conflicts, prescription and dates anew, by row: the stages of the pipeline, run on these trees alone, each from its own date. What
 * trees hide together of an area of sight is not measured here but given.
 */
export function remeasureTrees(trees: readonly TreeToMeasure[], ground: PlanGround): Map<number, MeasuredTree> {
  const byDate = new Map<IsoDate, TreeToMeasure[]>();
  for (const one of trees) {
    const group = byDate.get(one.asOf);
    if (group === undefined) byDate.set(one.asOf, [one]);
    else group.push(one);
  }
  const measured = new Map<number, MeasuredTree>();
  for (const [asOf, group] of byDate)
    for (const [row, one] of measureGroup(group, asOf, ground)) measured.set(row, one);
  return measured;
}

function measureGroup(group: readonly TreeToMeasure[], asOf: IsoDate, ground: PlanGround): [number, MeasuredTree][] {
  const { surroundings, standard, firstSeen, sight } = ground;
  const options = { ...ground.options, asOf };
  const trees = group.map(({ state }, row) => ({ ...state.tree, row }));
  const found = findConflicts(treeTable(trees), surroundings, standard, options, firstSeen);
  const cleared = withHiddenShares(found.conflicts, sight, surroundings, standard).flatMap((conflict) => {
    const cleared = group[conflict.treeRow]!.state.cleared.get(conflict.conflictId);
    return cleared === undefined ? [conflict] : (clearanceAfterWork(conflict, cleared, asOf, standard) ?? []);
  });
  const words = wordsAfterWork(group, ground.words);
  const conflicts = allConflictsAsSaid(cleared, words, standard, options);
  const drafts = prescribe(trees, conflicts, found.settings, standard, options, words);
  const dated = schedule(trees, drafts, conflicts, found.settings, standard, options);
  const numbered = dated.map((one, at) => numberedOn(one, group[at]!.row, group[at]!.state.lastDone));
  const lastDone = new Map(group.map(({ state }) => [state.tree.id, state.lastDone]));
  const prescriptions = prescriptionsAsSaid(
    ...([trees, numbered, conflicts, found.settings] as const),
    ...([ground.words ?? new Map(), standard, options, (id: string) => lastDone.get(id) ?? 0] as const),
  );
  const conflictsOf = trees.map((): Conflict[] => []);
  for (const conflict of conflicts) {
    conflictsOf[conflict.treeRow]!.push({ ...conflict, treeRow: group[conflict.treeRow]!.row });
  }
  return group.map(({ row, state }, at) => [
    row,
    {
      tree: state.tree,
      setting: { ...found.settings[at]!, treeRow: row },
      conflicts: conflictsOf[at]!,
      prescription: withRework(prescriptions[at]!, state.rework, asOf),
    },
  ]);
}

/** The words that still hold as work left the trees. */
function wordsAfterWork(group: readonly TreeToMeasure[], words: WordsByTree = new Map()): WordsByTree {
  return new Map(
    group.flatMap(({ state: { tree, lastDone } }) => {
      const said = words.get(tree.id);
      return said === undefined ? [] : [[tree.id, heldWords(said, lastDone)] as const];
    }),
  );
}

/** A prescription in its place in the plan; visits to come bear the numbers after the last one that was done. */
const numberedOn = (prescription: Prescription, treeRow: number, lastDone: number): Prescription => ({
  ...prescription,
  treeRow,
  visits: prescription.visits.map((visit) => ({
    ...visit,
    treeRow,
    visitId: `${visit.treeId}/v${lastDone + visit.number}`,
  })),
});
