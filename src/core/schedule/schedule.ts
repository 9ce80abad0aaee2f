import type { Conflict, TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Prescription } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { PrescriptionDraft } from "../prescription/prescription-draft.ts";
import type { Standard } from "../standard/standard.ts";
import { hazardDeadline } from "./hazard-deadline.ts";
import { isSouthern, SeasonBook } from "./season-book.ts";
import type { TreeCase } from "./tree-case.ts";
import { treeUrgency } from "./urgency.ts";
import { datedVisits } from "./visits.ts";

/**
 * The prescriptions with dates and urgency, one a tree in tree order.
 *
 * Hazards have their deadline from the day they were first seen and may be worked on outside a season; everything else keeps to the
 * allowed windows. Later stages follow at least twelve months after the window before, so that a growing season lies between.
 */
export function schedule(
  trees: readonly Tree[],
  drafts: readonly PrescriptionDraft[],
  conflicts: readonly Conflict[],
  settings: readonly TreeSetting[],
  standard: Standard,
  options: PlanOptions,
): Prescription[] {
  const byRow: Conflict[][] = [];
  for (const conflict of conflicts) {
    const own = byRow[conflict.treeRow];
    if (own === undefined) byRow[conflict.treeRow] = [conflict];
    else own.push(conflict);
  }
  const settingByRow: TreeSetting[] = [];
  for (const setting of settings) settingByRow[setting.treeRow] = setting;
  const book = new SeasonBook(standard, options);
  return drafts.map((draft, at) => {
    const tree = trees[at]!;
    const seasons = book.windowsOf(tree);
    const isSouth = isSouthern(tree);
    const all = byRow[tree.row] ?? [];
    const isChecked = (settingByRow[tree.row]?.notChecked.length ?? 1) === 0;
    return dateTree({ tree, draft, seasons, isSouth, all, isChecked, standard, options });
  });
}

function dateTree(given: TreeCase): Prescription {
  const { draft, standard, options } = given;
  const { asOf } = options;
  const visits = datedVisits(given);
  const hazardDue = hazardDeadline(
    given.all.filter((conflict) => conflict.certainty !== "possible"),
    standard,
  );
  const isOverdue = hazardDue !== null && hazardDue < asOf;
  const { stages, remedial: _remedial, earliest: _earliest, ...kept } = draft;
  const isUndated = stages.length > 0 && !visits.some((visit) => visit.tasks.some((task) => task.timing === "window"));
  return {
    ...kept,
    refer:
      kept.refer ??
      (isUndated
        ? {
            code: "no-allowed-season",
            reason: "The season rules leave no day on which this tree may be pruned: ask the authority that made them.",
          }
        : null),
    visits,
    urgency: hazardDue !== null ? "now" : treeUrgency(given, visits),
    overdue: isOverdue || visits.some((visit) => visit.overdue),
  };
}
