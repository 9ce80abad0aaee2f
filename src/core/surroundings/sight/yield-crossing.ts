import type { SightRules } from "../../standard/sight-rules.ts";
import { feetFromMeters, KMH_PER_MPH } from "../../units/length.ts";
import { rowAtSpeed } from "./row-at-speed.ts";

/** Share of its design speed at which a yielding vehicle crosses, times 1.47 ft/s for each mph, as published: 0.88. */
const CROSSING_FT_S_PER_MPH = 0.88;

/**
 * Case C1, crossing from a yield: the leg along the yielding road in meters, and the gap in seconds for the leg along the other one: the time
 * to travel the first, ta, and to clear the road crossed, (w + La) / (0.88 V), w and La in feet, V in mph (from memory; its example read in a
 * lecture of 2010). The gap is never shorter than that of a crossing from a stop.
 */
export function yieldCrossing(
  rules: SightRules,
  speedKmh: number,
  crossedM: number,
  leastGapS: number,
): { readonly legM: number; readonly gapS: number } {
  const travelS = rowAtSpeed(rules.yieldLegs, speedKmh, ({ travelS: seconds }) => seconds);
  const clearFt = feetFromMeters(crossedM + rules.vehicleLengthM[rules.vehicle]);
  const gapS = travelS + clearFt / (CROSSING_FT_S_PER_MPH * (speedKmh / KMH_PER_MPH));
  return {
    legM: rowAtSpeed(rules.yieldLegs, speedKmh, ({ legM }) => legM),
    gapS: Math.max(leastGapS, gapS),
  };
}
