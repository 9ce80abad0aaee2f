import type { Plan } from "../../core/model/plan.ts";

/** West, south, east and north of a plan's trees in degrees; null when it has none. */
export function planBounds(plan: Plan): [number, number, number, number] | null {
  let [west, south, east, north] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const { lonDeg, latDeg } of plan.trees) {
    west = Math.min(west, lonDeg);
    south = Math.min(south, latDeg);
    east = Math.max(east, lonDeg);
    north = Math.max(north, latDeg);
  }
  return west <= east ? [west, south, east, north] : null;
}
