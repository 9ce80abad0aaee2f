import type { ClearanceRemedy, Remedy } from "../../model/terms.ts";
import { DEFECTS } from "../../model/terms.ts";
import type { Size, Tree, TreeWork } from "../../model/trees.ts";
import { addMonths, type IsoDate } from "../../units/calendar.ts";
import type { Rework } from "../acceptance/with-rework.ts";
import { LEAST_CROWN_DEPTH_M, MEASURED_BY_CREW_ERROR_M } from "./crew-measures.ts";
import { inOrderOfWork } from "./order-of-reports.ts";
import type { NewerMeasures, RecordedVisit } from "./work-record.ts";

/** What done work did to one conflict. */
export interface ClearedConflict {
  readonly remedy: ClearanceRemedy;
  readonly on: IsoDate;
  /** Free height or distance in meters that the task was to reach; null where none was given. */
  readonly targetM: number | null;
  /** The free height that the crew measured at it; null when it did not. */
  readonly measuredM: number | null;
  /** Years that the prescribed option was to last; null where it is not known. */
  readonly lastsYears: number | null;
  /** Height in meters below which branches came off; null where the task named none. */
  readonly belowM: number | null;
}

/** A tree as its recorded work leaves it. */
export interface TreeAfterWork {
  readonly tree: Tree;
  /** Date of the last work that was done whole; null when none was. */
  readonly doneOn: IsoDate | null;
  readonly cleared: ReadonlyMap<string, ClearedConflict>;
  /** Day of the last work on each defect that was treated; absent where none was. */
  readonly treated?: ReadonlyMap<string, IsoDate>;
  /** Number of the last visit that was done; visits to come are numbered on from it. */
  readonly lastDone: number;
  /** All reports of visits that are still open, oldest first. */
  readonly open: readonly RecordedVisit[];
  /** The report that the tree is gone; null when it stands. */
  readonly gone: RecordedVisit | null;
  /** What its last finished visit must make good; absent where nothing. */
  readonly rework?: Rework;
}

const ROADS: readonly string[] = ["roadway", "bus-route", "fire-lane"];
const WALKS: readonly string[] = ["walkway", "bikeway"];

/** The kind of thing that a conflict is with, from its id. */
const kindOf = (conflictId: string): string => conflictId.slice(0, conflictId.indexOf(":"));

/**
 * The tree as the visits in force leave it, from the tree as it was before anything was recorded; the same whatever order they were taken in. Done
 * work sets the date of the last pruning and the dose taken, the reported one or else the planned, and the crown base: measured by the crew, or the
 * height of a lift as prescribed, which is then assumed. A measured headroom is the road's where the visit cleared one, else the walk's.
 * Work that is partly or not done changes no size: its figures stay in the record until the visit is done. What a later inventory measured anew (`newer`)
 * older work leaves as it is.
 */
export function treeAfterWork(
  base: Tree,
  recorded: readonly RecordedVisit[],
  newer: NewerMeasures = {},
): TreeAfterWork {
  const visits = inOrderOfWork(recorded);
  const done = visits.filter(({ entry }) => entry.outcome === "done");
  const doneIds = new Set(done.map(({ entry }) => entry.visitId));
  const last = visits.at(-1);
  const gone = last?.entry.reason === "tree-gone" ? last : null;
  const cleared = new Map<string, ClearedConflict>();
  const treated = new Map(
    done.flatMap(({ entry, planned }) => planned.tasks.map((task) => [lastPart(task.taskId), entry.date])),
  );
  let tree = base;
  let lastDone = 0;
  for (const visit of done) {
    const parts = visits.filter(
      ({ entry }) => entry.visitId === visit.entry.visitId && entry.outcome === "partly" && entry.doseShare !== null,
    );
    tree = afterDone(tree, visit, parts, cleared, newer);
    lastDone = Math.max(lastDone, numberOf(visit.entry.visitId));
  }
  const open = visits.filter(({ entry }) => !doneIds.has(entry.visitId));
  const worked: TreeWork | null =
    last === undefined ? null : { outcome: gone === null ? last.entry.outcome : "gone", on: last.entry.date };
  return {
    tree: worked === null ? tree : { ...tree, worked },
    doneOn: done.at(-1)?.entry.date ?? null,
    cleared,
    ...(treated.size === 0 ? {} : { treated }),
    lastDone,
    open,
    gone,
  };
}

/** Number of a visit from its id, `TREE/vN`; 0 where it has none. */
export function numberOf(visitId: string): number {
  const number = Number(visitId.slice(visitId.lastIndexOf("/v") + 2));
  return Number.isSafeInteger(number) && number > 0 ? number : 0;
}

const lastPart = (taskId: string): string => taskId.slice(taskId.lastIndexOf("/") + 1);

function afterDone(
  tree: Tree,
  { entry, planned }: RecordedVisit,
  parts: readonly RecordedVisit[],
  cleared: Map<string, ClearedConflict>,
  { crownBaseOn, headroomOn }: NewerMeasures,
): Tree {
  const taken = parts.map((part) => part.entry.doseShare!);
  // A dose that was not reported is the planned one, of which parts taken before are a part.
  const doseShare = entry.doseShare === null ? planned.doseShare : together([...taken, entry.doseShare]);
  const road = planned.tasks.flatMap((task) => task.conflictIds).find((id) => ROADS.includes(kindOf(id)));
  const walk = planned.tasks.flatMap((task) => task.conflictIds).find((id) => WALKS.includes(kindOf(id)));
  const measuredAt = entry.headroomM === null ? undefined : (road ?? walk);
  for (const task of planned.tasks) {
    for (const conflictId of task.conflictIds) {
      const measuredM = conflictId === measuredAt ? entry.headroomM : null;
      // Of a lift the crown's new base tells what is clear, unless the free height itself was measured.
      if (!isClearance(task.remedy) || (task.remedy === "lift" && measuredM === null)) continue;
      const { targetM, belowM, lastsYears } = task;
      cleared.set(conflictId, { remedy: task.remedy, on: entry.date, targetM, measuredM, lastsYears, belowM });
    }
  }
  const treated = new Set(planned.tasks.map(({ taskId }) => lastPart(taskId)));
  const isBaseNewer = crownBaseOn !== undefined && crownBaseOn >= entry.date;
  const isHeadroomNewer = headroomOn !== undefined && headroomOn >= entry.date;
  const isMeasured = road !== undefined && entry.headroomM !== null && !isHeadroomNewer;
  return {
    ...tree,
    crownBase: isBaseNewer ? tree.crownBase : crownBaseAfter(tree, entry.crownBaseM, entry.date, liftOf(planned.tasks)),
    headroomOverRoadM: isMeasured ? entry.headroomM : tree.headroomOverRoadM,
    lastPruned: tree.lastPruned !== null && tree.lastPruned > entry.date ? tree.lastPruned : entry.date,
    lastDoseShare: withDoseBefore(tree, entry.date, doseShare),
    defects: tree.defects.filter((defect) => !(DEFECTS.includes(defect) && treated.has(defect))),
  };
}

const isClearance = (remedy: Remedy): remedy is ClearanceRemedy =>
  remedy === "shorten" || remedy === "remove-limb" || remedy === "lift";

/** Shares of the crown taken one after another, each of what the one before left, as a share of the whole. */
export const together = (shares: readonly number[]): number =>
  shares.reduce((taken, share) => (taken === 0 ? share : 1 - (1 - taken) * (1 - share)), 0);

/** The dose of the last 12 months; null where what was taken before in them is not known. */
function withDoseBefore({ lastPruned, lastDoseShare }: Tree, on: IsoDate, doseShare: number): number | null {
  if (lastPruned === null || addMonths(lastPruned, 12) <= on) return doseShare;
  return lastDoseShare === null ? null : together([lastDoseShare, doseShare]);
}

function liftOf(tasks: RecordedVisit["planned"]["tasks"]): number | null {
  const heights = tasks.flatMap(({ remedy, belowM }) => (remedy === "lift" && belowM !== null ? [belowM] : []));
  return heights.length === 0 ? null : Math.max(...heights);
}

function crownBaseAfter(
  { crownBase, height }: Tree,
  measuredM: number | null,
  on: IsoDate,
  liftM: number | null,
): Size {
  const highestM = Math.max(0, height.valueM - LEAST_CROWN_DEPTH_M);
  if (measuredM !== null) return baseAt(Math.min(measuredM, highestM), "measured", `measured by crew, ${on}`);
  if (liftM === null || liftM <= crownBase.valueM) return crownBase;
  return baseAt(Math.min(liftM, highestM), "assumed", `as prescribed, reported done ${on}`);
}

const baseAt = (valueM: number, basis: Size["basis"], source: string): Size => ({
  valueM,
  lowM: Math.max(0, valueM - MEASURED_BY_CREW_ERROR_M),
  highM: valueM + MEASURED_BY_CREW_ERROR_M,
  basis,
  source,
});
