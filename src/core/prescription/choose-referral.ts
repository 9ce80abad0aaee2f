import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Referral } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays } from "../units/calendar.ts";
import { isWoody } from "./cut.ts";
import type { Earliest } from "./earliest-date.ts";
import type { ClearancePlan } from "./plan-clearance.ts";
import {
  assessDecay,
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
    // The nearest to allowed names the limit: the least of those a dose forbids, else the first.
    const limits = plan.candidates.map((candidate) => candidate.ruledOut).filter((limit) => limit !== null);
    const limit = limits.find(({ limit: kind }) => kind === "dose") ?? limits[0] ?? null;
    const reason = plan.chosen === null ? (limit?.reason ?? null) : null;
    if (plan.chosen === null && (!isWoody(tree) || tree.form === "palm" || limit?.limit === "form")) {
      return formWithoutRule(tree, plan.uncured, reason);
    }
    const ceiling = standard.pruning.multiYearCeilingShare;
    return doseBeyondLimits(plan.uncured, reason, plan.farthest, ceiling, options.units);
  }
  if (earliest !== null && by.sure.some((one) => isDueBefore(one, earliest, standard))) {
    return hazardBeforeAllowed(earliest.date, earliest.reason);
  }
  if (by.possible.length > 0 && by.sure.length === 0) return inspectFirst(tree, by.possible);
  return tree.defects.includes("decay") ? assessDecay() : null;
}

const isDueBefore = (conflict: Conflict, earliest: Earliest, standard: Standard): boolean =>
  conflict.hazard !== null && addDays(conflict.firstSeen, standard.deadlines[conflict.hazard]) < earliest.date;
