import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Referral } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays } from "../units/calendar.ts";
import type { Earliest } from "./earliest-date.ts";
import { monthsToEstablish } from "./establishment.ts";
import type { ClearancePlan } from "./plan-clearance.ts";
import {
  assessDecay,
  confirmPlantingDate,
  doseBeyondLimits,
  formWithoutRule,
  hazardBeforeAllowed,
  inspectFirst,
  onlyTopWouldCure,
  trunkInWay,
} from "./referral.ts";

/** A living tree's conflicts, sorted by what can be done about them. */
export interface ConflictsByCure {
  /** Confirmed or probable, and reached within the cycle. */
  readonly sure: readonly Conflict[];
  readonly possible: readonly Conflict[];
  /** The trunk itself stands in the thing as mapped. */
  readonly trunkInside: readonly Conflict[];
  /** Conductors that only cutting the top would clear. */
  readonly onlyTop: readonly Conflict[];
}

/** Why a living tree is referred, the weightiest reason; null when the rules cover it. It may have visits beside. */
export function chooseReferral(
  tree: Tree,
  by: ConflictsByCure,
  plan: ClearancePlan | null,
  earliest: Earliest | null,
  standard: Standard,
  options: PlanOptions,
): Referral | null {
  if (by.onlyTop.length > 0) return onlyTopWouldCure();
  if (by.trunkInside.length > 0) return trunkInWay(by.trunkInside);
  if (plan !== null && plan.uncured.length > 0) {
    const { limit, uncured } = plan;
    if (limit?.limit === "form") return formWithoutRule(tree, uncured, limit.reason);
    const ceiling = standard.pruning.multiYearCeilingShare;
    return doseBeyondLimits(uncured, limit?.reason ?? null, plan.farthest, ceiling, options.units);
  }
  if (earliest !== null && by.sure.some((one) => isDueBefore(one, earliest, standard))) {
    return earliest.cause === "undated"
      ? confirmPlantingDate(earliest.date, monthsToEstablish(tree, options.place, standard))
      : hazardBeforeAllowed(earliest.date, earliest.reason);
  }
  if (by.possible.length > 0 && by.sure.length === 0) return inspectFirst(tree, by.possible);
  return tree.defects.includes("decay") ? assessDecay() : null;
}

const isDueBefore = (conflict: Conflict, earliest: Earliest, standard: Standard): boolean =>
  conflict.hazard !== null && addDays(conflict.firstSeen, standard.deadlines[conflict.hazard]) < earliest.date;
