import type { Conflict, TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Referral } from "../model/prescription.ts";
import type { Defect } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays } from "../units/calendar.ts";
import { doseLimit } from "./dose-limit.ts";
import type { Earliest } from "./earliest-date.ts";
import { monthsToEstablish } from "./establishment.ts";
import { isView } from "./kinds.ts";
import { candidateFor } from "./options.ts";
import type { ClearancePlan } from "./plan-clearance.ts";
import {
  assessDecay,
  confirmPlantingDate,
  doseBeyondLimits,
  formWithoutRule,
  hazardBeforeAllowed,
  inspectFirst,
  onlyTopWouldCure,
  standsInView,
  strikeWithDefect,
  trunkInWay,
} from "./referral.ts";
import { subjectAtWork } from "./subject-at-work.ts";

/** A living tree's conflicts, sorted by what can be done about them. */
export interface ConflictsByCure {
  /** Confirmed or probable, and reached within the cycle. */
  readonly sure: readonly Conflict[];
  readonly possible: readonly Conflict[];
  /** The trunk itself stands in the thing as mapped. */
  readonly trunkInside: readonly Conflict[];
  /** Conductors over the tree's top that bringing its leaders down to laterals may not clear, or does not. */
  readonly onlyTop: readonly Conflict[];
  /** Sight triangles it stands in until it is tall enough to be raised out of them, and can only wait. */
  readonly waiting: readonly Conflict[];
}

/** Why a living tree is referred, the weightiest reason; null when the rules cover it. It may have visits beside. */
export function chooseReferral(
  tree: Tree,
  setting: TreeSetting,
  by: ConflictsByCure,
  plan: ClearancePlan | null,
  earliest: Earliest | null,
  standard: Standard,
  options: PlanOptions,
): Referral | null {
  if (by.onlyTop.length > 0) {
    const { share } = doseLimit(tree, options.asOf, standard);
    const subject = subjectAtWork(tree, by.onlyTop, by.onlyTop, standard, options);
    const down = candidateFor(subject, by.onlyTop, "shorten", 0, share, standard);
    return onlyTopWouldCure(down.option, options.units);
  }
  if (by.trunkInside.length > 0) return trunkInWay(by.trunkInside);
  if (plan !== null && plan.uncured.length > 0) {
    const { limit, uncured } = plan;
    if (uncured.every(({ kind, distanceM }) => isView(kind) && distanceM <= 0)) {
      return standsInView(tree, uncured, limit?.reason ?? null, options.units);
    }
    if (limit?.limit === "form") return formWithoutRule(tree, uncured, limit.reason);
    const ceiling = standard.pruning.multiYearCeilingShare;
    return doseBeyondLimits(uncured, limit?.reason ?? null, plan.farthest, ceiling, options.units);
  }
  if (earliest !== null && by.sure.some((one) => isDueBefore(one, earliest, standard))) {
    return earliest.cause === "undated"
      ? confirmPlantingDate(earliest.date, monthsToEstablish(tree, options.place, standard))
      : hazardBeforeAllowed(earliest.date, earliest.reason);
  }
  if (couldStrikeWithDefect(tree, setting)) return strikeWithDefect(tree.defects.filter(isOfWholeTree));
  if (by.possible.length > 0 && by.sure.length === 0) return inspectFirst(tree, by.possible);
  return tree.defects.includes("decay") ? assessDecay() : null;
}

/** Defects by which a whole tree, or half of it, can fail. Our policy. */
const OF_WHOLE_TREE: readonly Defect[] = ["decay", "included-bark", "codominant-stem"];
const isOfWholeTree = (defect: Defect): boolean => OF_WHOLE_TREE.includes(defect);

/** Being long enough to strike a line is no reason by itself. */
const couldStrikeWithDefect = (tree: Tree, setting: TreeSetting): boolean =>
  tree.defects.some(isOfWholeTree) && (setting.spans ?? []).some(({ canStrike }) => canStrike);

const isDueBefore = (conflict: Conflict, earliest: Earliest, standard: Standard): boolean =>
  conflict.hazard !== null && addDays(conflict.firstSeen, standard.deadlines[conflict.hazard]) < earliest.date;
