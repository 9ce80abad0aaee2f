import { findConflicts } from "./conflict/find-conflicts.ts";
import { withHiddenShares } from "./conflict/hidden/with-hidden-shares.ts";
import type { Conflict, ConflictRecord } from "./model/conflict.ts";
import type { Plan } from "./model/plan.ts";
import type { SightArea } from "./model/surroundings.ts";
import { treeTable } from "./model/tree-table.ts";
import type { Tree } from "./model/trees.ts";
import type { WordsByTree } from "./model/words-in-force.ts";
import { rounded } from "./plan/bough-properties.ts";
import { areasNear, treesNear } from "./plan/record/sight-neighbors.ts";
import { type TreeAfterWork, treeAfterWork } from "./plan/record/tree-after-work.ts";
import { goneTree, withOpenWork } from "./plan/record/work-on-prescription.ts";
import { stateAsSaid } from "./plan/word/state-as-said.ts";
import { treeBeforeWords } from "./plan/word/tree-as-measured.ts";
import { type MeasuredTree, remeasureTrees, type TreeToMeasure } from "./remeasure-trees.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { reestimateAt } from "./words-on-plan.ts";

/** A plan with trees as their work left them, and the rows whose figures are new. */
export interface MeasuredAfterWork {
  readonly plan: Plan;
  readonly rows: ReadonlySet<number>;
}

/**
 * The plan with the given rows measured, prescribed for and dated anew as their work left them, from the later of the plan's as-of date and the day of
 * their last work; so are trees whose hazard ended or began because a view was opened. All other trees stay as they are. `states` are those of all
 * trees that something is recorded of, by id; `words` are what arborists said of any.
 */
export function measuredAfterWork(
  plan: Plan,
  reported: readonly number[],
  states: ReadonlyMap<string, TreeAfterWork>,
  firstSeen: ReadonlyMap<string, IsoDate>,
  surroundings: Surroundings,
  standard: Standard,
  words: WordsByTree = new Map(),
): MeasuredAfterWork {
  const rowOf = new Map(plan.trees.map((tree, row) => [tree.id, row]));
  const reestimate = reestimateAt(plan.options.place);
  const stateOf = (row: number): TreeAfterWork => {
    const tree = plan.trees[row]!;
    return stateAsSaid(states.get(tree.id) ?? untouched(tree), words.get(tree.id), reestimate);
  };
  const sight = sightAfterWork(plan, reported, stateOf, surroundings, standard);
  const rows = new Set([...reported, ...rowsWithNewHazards(plan, sight, surroundings, standard, rowOf)]);
  const toMeasure = [...rows].flatMap((row): TreeToMeasure[] => {
    const state = stateOf(row);
    const { asOf } = plan.options;
    return state.gone !== null
      ? []
      : [{ row, state, asOf: state.doneOn !== null && state.doneOn > asOf ? state.doneOn : asOf }];
  });
  const ground = { surroundings, standard, options: plan.options, firstSeen, sight, words };
  const measured = remeasureTrees(toMeasure, ground);
  return { plan: withMeasured({ ...plan, sight }, rows, measured, stateOf), rows };
}

const untouched = (tree: Tree): TreeAfterWork => treeAfterWork(treeBeforeWords(tree), []);

/**
 * What is hidden of the areas of sight that the trees reported can stand in, measured with all trees around them as work left them. A limb cut out of
 * a view on one side counts as a lift: the crown model has no sides. All other areas are given back as they are.
 */
function sightAfterWork(
  plan: Plan,
  reported: readonly number[],
  stateOf: (row: number) => TreeAfterWork,
  surroundings: Surroundings,
  standard: Standard,
): readonly SightArea[] {
  const areas = areasNear(
    plan.sight,
    reported.map((row) => plan.trees[row]!),
  );
  if (areas.size === 0) return plan.sight;
  const around = treesNear(plan, areas).flatMap((row) => {
    const state = stateOf(row);
    return state.gone === null ? [seenAfterWork(state)] : [];
  });
  const trees = around.map((tree, row) => ({ ...tree, row }));
  const { sight } = findConflicts(treeTable(trees), surroundings, standard, plan.options, new Map());
  const anew = new Map(sight.map((area) => [area.id, area]));
  return plan.sight.map((area) => (areas.has(area.id) ? (anew.get(area.id) ?? area) : area));
}

/** The tree as it hides views after limbs were cut out of them. */
export function seenAfterWork({ tree, cleared }: TreeAfterWork): Tree {
  let baseM = tree.crownBase.valueM;
  for (const [conflictId, { belowM }] of cleared) {
    const isView = /^(sight-triangle|curve|sign|signal):/.test(conflictId);
    if (isView && belowM !== null && belowM < tree.height.valueM) baseM = Math.max(baseM, belowM);
  }
  return baseM === tree.crownBase.valueM ? tree : { ...tree, crownBase: { ...tree.crownBase, valueM: baseM } };
}

/** Rows of trees whose share of what is hidden, or whose hazard, is another than the plan says. */
function rowsWithNewHazards(
  plan: Plan,
  sight: readonly SightArea[],
  surroundings: Surroundings,
  standard: Standard,
  rowOf: ReadonlyMap<string, number>,
): number[] {
  const before = new Map(plan.sight.map((area) => [area.id, area]));
  const changed = new Set(sight.filter((area) => before.get(area.id) !== area).map(({ id }) => id));
  if (changed.size === 0) return [];
  const concerned = plan.conflicts.filter(({ withLayer, withId }) => withLayer === "sight" && changed.has(withId));
  // A record lacks the region, which shares of views do not need; hazards are judged from it as from a conflict.
  const bare = concerned.map((one) => ({ ...one, hazard: null }));
  const anew: ConflictRecord[] = withHiddenShares(bare as unknown as Conflict[], sight, surroundings, standard);
  return anew.flatMap((one, at) => {
    const was = concerned[at]!;
    const isSame = one.hazard === was.hazard && rounded(one.hiddenShare ?? 0, 4) === rounded(was.hiddenShare ?? 0, 4);
    return isSame ? [] : (rowOf.get(one.treeId) ?? []);
  });
}

function withMeasured(
  plan: Plan,
  rows: ReadonlySet<number>,
  measured: ReadonlyMap<number, MeasuredTree>,
  stateOf: (row: number) => TreeAfterWork,
): Plan {
  const conflictsOf = new Map<number, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    if (rows.has(conflict.treeRow)) continue;
    const own = conflictsOf.get(conflict.treeRow);
    if (own === undefined) conflictsOf.set(conflict.treeRow, [conflict]);
    else own.push(conflict);
  }
  const trees = [...plan.trees];
  const settings = [...plan.settings];
  const prescriptions = [...plan.prescriptions];
  for (const row of rows) {
    const state = stateOf(row);
    trees[row] = state.tree;
    const one = measured.get(row);
    if (one === undefined) {
      prescriptions[row] = goneTree(prescriptions[row]!, state.gone!);
      continue;
    }
    settings[row] = one.setting;
    prescriptions[row] = withOpenWork(one.prescription, state.open);
    conflictsOf.set(row, [...one.conflicts]);
  }
  return {
    ...plan,
    trees,
    settings,
    prescriptions,
    conflicts: plan.trees.flatMap((_, row) => conflictsOf.get(row) ?? []),
  };
}
