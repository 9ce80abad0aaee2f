import { stoppingSightDistanceFt } from "../../../standard/stopping-sight-distance-ft.ts";
import type { ViewRow } from "../../../standard/view-rules.ts";
import { KMH_PER_MPH, metersFromFeet } from "../../../units/length.ts";
import { roundUpTo5 } from "../intersection-sight-distance-ft.ts";

/**
 * From how far in meters a face must be seen at a speed, by a published table whose rows ascend. Between rows straight between them. Below the first
 * row and above the last the line through the nearest two goes on: FHWA's table starts at 30 mph. Where the face may ask for a
 * stop it is never less than the design stopping sight distance. Both are our choice, stated by neither table.
 */
export function viewDistanceM(rows: readonly ViewRow[], speedKmh: number, asksForStop: boolean): number {
  const above = rows.findIndex((row) => row.speedKmh >= speedKmh - SAME_KMH);
  const high = above < 0 ? rows.length - 1 : Math.max(1, above);
  const [one, other] = [rows[high - 1]!, rows[high]!];
  const share = (speedKmh - one.speedKmh) / (other.speedKmh - one.speedKmh);
  const distanceM = one.distanceM + share * (other.distanceM - one.distanceM);
  const leastM = asksForStop ? metersFromFeet(roundUpTo5(stoppingSightDistanceFt(speedKmh / KMH_PER_MPH))) : 0;
  const isRow = rows.some((row) => Math.abs(row.speedKmh - speedKmh) <= SAME_KMH);
  return isRow ? distanceM : Math.max(leastM, distanceM, 0);
}

/** A double's last bit is no difference in speed. */
const SAME_KMH = 1e-6;
