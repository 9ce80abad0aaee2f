import type { ConflictRecord } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { Prescription, Visit } from "../model/prescription.ts";
import type { Defect } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { type IsoDate, yearsBetween } from "../units/calendar.ts";
import { conflictExposure, crownExposure, type RoadClasses, roadClasses } from "./exposure.ts";
import { riskPoints } from "./risk.ts";

/** Risk of a plan in points, by what ends it. */
export interface PlanRisk {
  /** What each visit removes, by visit id. */
  readonly ofVisit: ReadonlyMap<string, number>;
  /** What no visit works on: trees referred, conflicts to inspect first, conflicts watched. By tree id. */
  readonly withoutVisit: ReadonlyMap<string, number>;
}

/** Defects that structural pruning works on; the others are remedial work. */
const STRUCTURAL: readonly Defect[] = ["included-bark", "codominant-stem"];

/**
 * The risk that each visit of a plan removes, on the plan's own date. A conflict that several visits work on is shared among them by the crown they take for
 * it; what a visit leaves open counts for the later ones. Defects count for the visit with their tasks, once each.
 */
export function planRisk(plan: Plan, standard: Standard): PlanRisk {
  const classes = roadClasses(plan.surroundings);
  const conflictsOf = new Map<number, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    const own = conflictsOf.get(conflict.treeRow);
    if (own === undefined) conflictsOf.set(conflict.treeRow, [conflict]);
    else own.push(conflict);
  }
  const ofVisit = new Map<string, number>();
  const withoutVisit = new Map<string, number>();
  plan.prescriptions.forEach((prescription, row) => {
    const conflicts = conflictsOf.get(row) ?? [];
    const rest = treeRisk(plan, row, prescription, conflicts, classes, standard, ofVisit);
    if (rest > 0) withoutVisit.set(prescription.treeId, rest);
  });
  return { ofVisit, withoutVisit };
}

/** Adds what each visit of a tree removes; gives what none does. */
function treeRisk(
  plan: Plan,
  row: number,
  { visits }: Prescription,
  conflicts: readonly ConflictRecord[],
  classes: RoadClasses,
  standard: Standard,
  ofVisit: Map<string, number>,
): number {
  const { asOf } = plan.options;
  const tree = plan.trees[row]!;
  const setting = plan.settings[row]!;
  const rules = standard.risk;
  for (const { visitId } of visits) ofVisit.set(visitId, 0);
  const add = (visitId: string, points: number) => ofVisit.set(visitId, (ofVisit.get(visitId) ?? 0) + points);
  let rest = 0;
  for (const conflict of conflicts) {
    const shares = sharesOf(conflict.conflictId, visits);
    const facts = {
      fault: conflict.hazard ?? ("below-minimum" as const),
      certainty: conflict.certainty,
      shortfallShare: shortfallOf(conflict),
      exposure: conflictExposure(conflict, setting, classes, rules),
      openShare: openShareOf(conflict.reachedOn, asOf, standard.pruning.cycleYears),
    };
    if (shares.length === 0) rest += riskPoints({ ...facts, overdueYears: 0 }, rules);
    const overdueYears = overdueOf(shares[0]?.visit, asOf);
    for (const { visit, share } of shares) add(visit.visitId, share * riskPoints({ ...facts, overdueYears }, rules));
  }
  const exposure = crownExposure(tree, setting, classes, rules);
  const certain = { certainty: "confirmed", shortfallShare: 0, exposure, openShare: 1 } as const;
  for (const defect of new Set(tree.defects)) {
    const remedy = STRUCTURAL.includes(defect) ? "structural" : "remedial";
    const visit = visits.find(({ tasks }) => tasks.some((task) => task.remedy === remedy));
    const points = riskPoints({ ...certain, fault: defect, overdueYears: overdueOf(visit, asOf) }, rules);
    if (visit === undefined) rest += points;
    else add(visit.visitId, points);
  }
  // Work that did not pass its check: its conflicts are no more in the plan where they count as cleared.
  const rework = visits.find(({ tasks }) => tasks.some(({ taskId }) => taskId.endsWith("/rework")));
  if (rework !== undefined) {
    const overdueYears = overdueOf(rework, asOf);
    add(rework.visitId, riskPoints({ ...certain, fault: "below-minimum", overdueYears }, rules));
  }
  if (!tree.defects.some((defect) => STRUCTURAL.includes(defect))) {
    const visit = visits.find(({ tasks }) => tasks.some((task) => task.remedy === "structural"));
    const overdueYears = overdueOf(visit, asOf);
    if (visit !== undefined) add(visit.visitId, riskPoints({ ...certain, fault: "training", overdueYears }, rules));
  }
  return rest;
}

/** The visits that work on a conflict, each with its share by the crown that its tasks for it take; equal shares where none is counted. */
function sharesOf(conflictId: string, visits: readonly Visit[]): { readonly visit: Visit; readonly share: number }[] {
  const own = visits.flatMap((visit) => {
    const tasks = visit.tasks.filter(({ conflictIds }) => conflictIds.includes(conflictId));
    return tasks.length === 0 ? [] : [{ visit, dose: tasks.reduce((sum, task) => sum + task.doseShare, 0) }];
  });
  const whole = own.reduce((sum, { dose }) => sum + dose, 0);
  return own.map(({ visit, dose }) => ({ visit, share: whole > 0 ? dose / whole : 1 / own.length }));
}

/** Share of the minimum that is lacking, at most 1; of faces and views without one the share of the view that the tree hides. */
function shortfallOf({ encroachmentM, minimumM, hiddenShare }: ConflictRecord): number {
  return minimumM > 0 ? Math.min(1, encroachmentM / minimumM) : (hiddenShare ?? 0);
}

/** Share of the coming cycle in which a minimum is not kept. */
const openShareOf = (reachedOn: IsoDate, asOf: IsoDate, cycleYears: number): number =>
  reachedOn <= asOf ? 1 : Math.max(0, 1 - yearsBetween(asOf, reachedOn) / cycleYears);

const overdueOf = (visit: Visit | undefined, asOf: IsoDate): number =>
  visit === undefined || visit.due >= asOf ? 0 : yearsBetween(visit.due, asOf);
