import type { SightArea } from "../../model/surroundings.ts";
import type { SightRules } from "../../standard/sight-rules.ts";
import type { ViewRules } from "../../standard/view-rules.ts";
import type { LinesOfSight } from "./lines-of-sight.ts";

/**
 * The lines of sight of a triangle: from the waiting driver's eye, its first corner, to the vehicles on the lane that must be seen, as far as
 * `coveredM` meters of it are in the data. Null for corners of fixed legs, which ask for free ground and name no lane.
 */
export function triangleLines(
  area: SightArea,
  lane: LinesOfSight["lane"],
  coveredM: number,
  sight: SightRules,
  views: ViewRules,
): LinesOfSight | null {
  if (area.movement === "corner" || area.control === null || lane.length < 2 || !(coveredM > 0)) return null;
  return {
    lane,
    lengthM: coveredM,
    fixed: area.ring[0]!,
    aheadM: 0,
    laneEndM: views.vehicleM,
    otherEndM: [views.eyeM[sight.vehicle], views.eyeM[sight.vehicle]],
  };
}
