import { KMH_PER_MPH, metersFromFeet } from "../../units/length.ts";
import { intersectionSightDistanceFt, roundUpTo5 } from "./intersection-sight-distance-ft.ts";

/** Design length in meters of the leg along a road for a gap: the distance driven in it, rounded up to the next 5 ft as published. */
export function designLegM(speedKmh: number, gapS: number): number {
  return metersFromFeet(roundUpTo5(intersectionSightDistanceFt(speedKmh / KMH_PER_MPH, gapS)));
}
