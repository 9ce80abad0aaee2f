import type { OpenedPlan } from "../formats/plan/open-plan.ts";

/** West, south, east and north of a plan's trees in degrees, as a map's `fitBounds` takes it; null without trees. */
export function planBounds({ plan }: OpenedPlan): [west: number, south: number, east: number, north: number] | null {
  if (plan.trees.length === 0) return null;
  const bounds: [number, number, number, number] = [180, 90, -180, -90];
  for (const { lonDeg, latDeg } of plan.trees) {
    bounds[0] = Math.min(bounds[0], lonDeg);
    bounds[1] = Math.min(bounds[1], latDeg);
    bounds[2] = Math.max(bounds[2], lonDeg);
    bounds[3] = Math.max(bounds[3], latDeg);
  }
  return bounds;
}
