import type { Finding } from "../model/finding.ts";
import type { Plan } from "../model/plan.ts";
import type { Prescription } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import { type FlatValue, rounded } from "./bough-properties.ts";

/** A table as data: a header and rows of cells in the same order. */
export interface Table {
  readonly header: readonly string[];
  readonly rows: readonly (readonly FlatValue[])[];
}

/** One row a visit, in tree order and then in order of time. */
export function visitTable(plan: Plan): Table {
  const zoneOf = new Map(plan.zones.flatMap((zone) => zone.visitIds.map((visitId) => [visitId, zone.zoneId] as const)));
  return { header: VISIT_COLUMNS, rows: visitRows(plan.prescriptions, (row) => plan.trees[row], zoneOf) };
}

/** The columns of `visits.csv`. */
export const VISIT_COLUMNS: readonly string[] = [
  "visit",
  "tree",
  "species",
  "street",
  "address",
  "number",
  "due",
  "window_start",
  "window_end",
  "urgency",
  "overdue",
  "crew",
  "hours",
  "dose_pct",
  "zone",
  "tasks",
  "where",
  "open_after",
  "side",
  "owner",
  "protected",
];

/** The rows of some trees' visits; `treeAt` gives a tree by its row and `zoneOf` a zone by the id of a visit. */
export const visitRows = (
  prescriptions: readonly Prescription[],
  treeAt: (row: number) => Tree | undefined,
  zoneOf: ReadonlyMap<string, string>,
): FlatValue[][] =>
  prescriptions.flatMap((prescription) => {
    const tree = treeAt(prescription.treeRow);
    return prescription.visits.map((visit) => [
      visit.visitId,
      visit.treeId,
      tree?.species ?? null,
      tree?.street ?? null,
      tree?.address ?? null,
      visit.number,
      visit.due,
      visit.windowStart,
      visit.windowEnd,
      visit.urgency,
      visit.overdue,
      visit.crew,
      rounded(visit.hours, 2),
      rounded(visit.doseShare * 100, 1),
      zoneOf.get(visit.visitId) ?? null,
      visit.tasks.map((task) => task.remedy).join(","),
      visit.tasks.map((task) => task.where).join("; "),
      visit.openAfter.join("; "),
      tree?.side ?? null,
      tree?.owner ?? null,
      tree?.isProtected ?? null,
    ]);
  });
/** One row a finding. */
export function findingTable(findings: readonly Finding[]): Table {
  return {
    header: ["code", "severity", "layer", "file", "feature", "field", "value", "reason", "what_to_do"],
    rows: findings.map((finding) => [
      finding.code,
      finding.severity,
      finding.layer,
      finding.file,
      finding.feature,
      finding.field,
      finding.value,
      finding.reason,
      finding.whatToDo,
    ]),
  };
}
