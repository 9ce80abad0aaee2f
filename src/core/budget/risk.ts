import type { Certainty, Defect, Hazard } from "../model/terms.ts";
import type { Exposure, RiskRules } from "../standard/risk-rules.ts";

/** What the risk of one open fault of a tree is reckoned from. */
export interface RiskFacts {
  /** The hazard or defect; else a minimum that is not kept, or the training of a young tree. */
  readonly fault: Hazard | Defect | "below-minimum" | "training";
  readonly certainty: Certainty;
  /** Share of the minimum that is lacking, 0 to 1. */
  readonly shortfallShare: number;
  /** Years past the due date, 0 when not overdue. */
  readonly overdueYears: number;
  readonly exposure: Exposure;
  /** Share of the coming pruning cycle in which the fault is open, 0 to 1: less than 1 for a minimum that growth reaches later. */
  readonly openShare: number;
}

/**
 * Risk of one open fault in points, a plain number to order work by: weight of the fault x certainty x people exposed x (1 + how far below the minimum) x
 * (1 + how long overdue) x share of the coming cycle in which it is open. 1 is a confirmed branch just below its minimum over a residential street.
 *
 * A policy, not a probability: all weights are the standard's (`risk`). Source: our rule.
 */
export function riskPoints(facts: RiskFacts, rules: RiskRules): number {
  const shortfall = Math.min(1, Math.max(0, facts.shortfallShare));
  const overdue = Math.min(rules.overdueMost, rules.overduePerYear * Math.max(0, facts.overdueYears));
  return (
    weightOf(facts.fault, rules) *
    rules.certaintyWeights[facts.certainty] *
    rules.exposureWeights[facts.exposure] *
    (1 + rules.shortfallWeight * shortfall) *
    (1 + overdue) *
    Math.min(1, Math.max(0, facts.openShare))
  );
}

function weightOf(fault: RiskFacts["fault"], rules: RiskRules): number {
  if (fault === "below-minimum") return rules.belowMinimumWeight;
  if (fault === "training") return rules.trainingWeight;
  const hazard = (rules.hazardWeights as Readonly<Record<string, number>>)[fault];
  return hazard ?? rules.defectWeights[fault as Defect];
}
