import type { Plan } from "../../model/plan.ts";
import type { SightArea } from "../../model/surroundings.ts";
import type { Tree } from "../../model/trees.ts";

/** No crown reaches farther from its trunk, in meters: what stands farther from an area's box hides nothing of it. */
const REACH_M = 40;
/** Meters in a degree of latitude, rounded down so that no tree is missed. */
const M_PER_DEG = 110_000;

/** West, south, east and north in degrees. */
type Box = readonly [number, number, number, number];

/** Ids of the areas of sight with measured lines that some of the trees may hide something of, by their boxes: a few more than needed. */
export function areasNear(sight: readonly SightArea[], trees: readonly Tree[]): ReadonlySet<string> {
  const near = new Set<string>();
  for (const area of sight) {
    if (area.hidden === null) continue;
    const box = boxOf(area);
    if (trees.some((tree) => isIn(box, tree))) near.add(area.id);
  }
  return near;
}

/** Rows of the trees that may hide something of the areas, in plan order. */
export function treesNear(plan: Pick<Plan, "trees" | "sight">, areas: ReadonlySet<string>): number[] {
  const boxes = plan.sight.filter(({ id }) => areas.has(id)).map(boxOf);
  return plan.trees.flatMap((tree, row) => (boxes.some((box) => isIn(box, tree)) ? [row] : []));
}

function boxOf({ ring }: SightArea): Box {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [lonDeg, latDeg] of ring) {
    west = Math.min(west, lonDeg);
    east = Math.max(east, lonDeg);
    south = Math.min(south, latDeg);
    north = Math.max(north, latDeg);
  }
  const latMoreDeg = REACH_M / M_PER_DEG;
  const lonMoreDeg =
    latMoreDeg / Math.max(0.01, Math.cos((Math.max(Math.abs(south), Math.abs(north)) * Math.PI) / 180));
  return [west - lonMoreDeg, south - latMoreDeg, east + lonMoreDeg, north + latMoreDeg];
}

const isIn = ([west, south, east, north]: Box, { lonDeg, latDeg }: Tree): boolean =>
  lonDeg >= west && lonDeg <= east && latDeg >= south && latDeg <= north;
