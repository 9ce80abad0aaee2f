import { findConflicts } from "./conflict/find-conflicts.ts";
import { withHiddenShares } from "./conflict/hidden/with-hidden-shares.ts";
import type { Conflict, ConflictRecord } from "./model/conflict.ts";
import type { Plan } from "./model/plan.ts";
import type { SightArea } from "./model/surroundings.ts";
import { treeTable } from "./model/tree-table.ts";
import type { Tree } from "./model/trees.ts";
import { rounded } from "./plan/bough-properties.ts";
import type { RecordInput, RecordPreview } from "./plan/record/record-preview.ts";
import { areasNear, treesNear } from "./plan/record/sight-neighbors.ts";
import { takeIntoRecord } from "./plan/record/take-record.ts";
import { type TreeAfterWork, treeAfterWork } from "./plan/record/tree-after-work.ts";
import { workFindings } from "./plan/record/work-findings.ts";
import { goneTree, withOpenWork } from "./plan/record/work-on-prescription.ts";
import type { RecordedVisit, WorkRecord } from "./plan/record/work-record.ts";
import { zonesAfterWork } from "./plan/record/zones-after-work.ts";
import { type MeasuredTree, remeasureTrees, type TreeToMeasure } from "./remeasure-trees.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { hoursOfCrew, zoneSettings } from "./zone/zone-settings.ts";

/** A plan with work recorded in it. */
export interface RecordedWork {
  readonly plan: Plan;
  readonly record: WorkRecord;
  /** Trees whose figures are new, in plan order: those reported, and those whose view they opened. */
  readonly changedTreeIds: readonly string[];
}

/**
 * The next revision of a plan, with what a preview shows as `take`. Trees that were reported are measured, prescribed for and dated anew from the
 * later of the plan's as-of date and the day of their last work; so are trees whose hazard ended or began because a view was opened. All other
 * trees stay as they are. Throws RangeError for a preview of another plan or revision.
 */
export function recordWork(
  input: Pick<RecordInput, "plan" | "record">,
  preview: RecordPreview,
  revision: number,
  surroundings: Surroundings,
  standard: Standard,
): RecordedWork {
  const { plan } = input;
  const { record, treeIds } = takeIntoRecord(plan, input.record, preview, revision);
  const states = statesOf(record);
  const rowOf = new Map(plan.trees.map((tree, row) => [tree.id, row]));
  const reported = treeIds.flatMap((id) => rowOf.get(id) ?? []);
  const stateOf = (row: number): TreeAfterWork => states.get(plan.trees[row]!.id) ?? untouched(plan.trees[row]!);
  const sight = sightAfterWork(plan, reported, stateOf, surroundings, standard);
  const rows = new Set([...reported, ...rowsWithNewHazards(plan, sight, surroundings, standard, rowOf)]);

  const firstSeen = firstSeenOf(plan, record);
  const toMeasure = [...rows].flatMap((row): TreeToMeasure[] => {
    const state = stateOf(row);
    const { asOf } = plan.options;
    return state.gone !== null
      ? []
      : [{ row, state, asOf: state.doneOn !== null && state.doneOn > asOf ? state.doneOn : asOf }];
  });
  const ground = { surroundings, standard, options: plan.options, firstSeen, sight };
  const measured = remeasureTrees(toMeasure, ground);
  const next = withMeasured({ ...plan, revision, sight }, rows, measured, stateOf);
  const settings = zoneSettings(plan.options.zoning ?? {}, standard);
  const zones = zonesAfterWork(plan.zones, next, record, ({ hours, crew }) =>
    hoursOfCrew(hours, crew, settings, standard),
  );
  return {
    plan: {
      ...next,
      zones,
      findings: [...plan.findings.filter(({ code }) => !isOfWork(code)), ...workFindings(next, record)],
    },
    record,
    changedTreeIds: plan.trees.flatMap(({ id }, row) => (rows.has(row) ? [id] : [])),
  };
}

const isOfWork = (code: string): boolean => code.startsWith("work-");

/** The trees that something is recorded of, as their work leaves them, by id. */
function statesOf(record: WorkRecord): Map<string, TreeAfterWork> {
  const visits = new Map<string, RecordedVisit[]>();
  for (const visit of record.visits) {
    if (visit.replacedIn !== null) continue;
    const own = visits.get(visit.entry.treeId);
    if (own === undefined) visits.set(visit.entry.treeId, [visit]);
    else own.push(visit);
  }
  return new Map(record.bases.map(({ tree }) => [tree.id, treeAfterWork(tree, visits.get(tree.id) ?? [])]));
}

const untouched = (tree: Tree): TreeAfterWork => treeAfterWork(tree, []);

function firstSeenOf(plan: Plan, record: WorkRecord): Map<string, IsoDate> {
  const firstSeen = new Map<string, IsoDate>(plan.conflicts.map((one) => [one.conflictId, one.firstSeen]));
  for (const base of record.bases) {
    for (const [conflictId, since] of Object.entries(base.firstSeen)) firstSeen.set(conflictId, since);
  }
  return firstSeen;
}

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
function seenAfterWork({ tree, cleared }: TreeAfterWork): Tree {
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
