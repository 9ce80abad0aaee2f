import type { Plan } from "../../core/model/plan.ts";
import { zoneAcceptance } from "../../core/plan/acceptance/zone-acceptance.ts";
import type { WorkRecord } from "../../core/plan/record/work-record.ts";
import type { AcceptanceRules } from "../../core/standard/notice-rules.ts";
import { writeCsv } from "../csv.ts";
import { CHECK_COLUMNS } from "./read-checks.ts";

/** Columns of the sheet that is taken along: those of a table of checks, then what helps to find the tree and to judge the work. */
export const CHECK_SHEET_COLUMNS = [
  ...CHECK_COLUMNS,
  "species",
  "street",
  "longitude",
  "latitude",
  "done_on",
  "done_by",
  "work",
];

/** The trees of zones that are still to be checked, in the order they were drawn, as a table to fill in and record. */
export function checkSheet(plan: Plan, record: WorkRecord, zoneIds: readonly string[], rules: AcceptanceRules): string {
  const trees = new Map(plan.trees.map((tree) => [tree.id, tree]));
  const rows = zoneIds.flatMap((zoneId) =>
    zoneAcceptance(plan.planId, zoneId, record, rules)
      .trees.filter(({ check }) => check === null)
      .map(({ treeId, visit }) => {
        const tree = trees.get(treeId);
        const { entry, planned } = visit;
        return [
          ...[zoneId, entry.visitId, treeId, "", "", "", "", ""],
          tree?.species ?? null,
          tree?.street ?? null,
          tree === undefined ? null : Number(tree.lonDeg.toFixed(7)),
          tree === undefined ? null : Number(tree.latDeg.toFixed(7)),
          entry.date,
          entry.who,
          planned.tasks.map(({ remedy }) => remedy).join(", "),
        ];
      }),
  );
  return writeCsv(CHECK_SHEET_COLUMNS, rows);
}
