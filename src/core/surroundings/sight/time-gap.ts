import type { GapRule, SightRules } from "../../standard/sight-rules.ts";
import { metersFromFeet } from "../../units/length.ts";

/** A median counts as so many lanes as it is times 12 ft wide (Montana road design manual, read). */
const MEDIAN_LANE_M = metersFromFeet(12);

/**
 * Seconds of gap that a movement needs: the rule's for the standard's vehicle, more for each further lane and lane's width of median that is
 * crossed, and for a steep upgrade of the driver's approach, counted in full percent.
 */
export function timeGapS(
  rules: SightRules,
  rule: GapRule,
  extraLanes: number,
  medianM: number,
  upgradePercent: number | null,
): number {
  const lanes = Math.max(0, extraLanes) + medianM / MEDIAN_LANE_M;
  const isSteep = upgradePercent !== null && upgradePercent > rules.gradeFromPercent;
  return (
    rule.seconds[rules.vehicle] +
    rules.extraLaneS[rules.vehicle] * lanes +
    (isSteep ? rule.perGradePercentS * upgradePercent : 0)
  );
}
