import type { Leg } from "./find-intersections.ts";
import { offsetLine } from "./offset-line.ts";
import type { PlanePoint } from "./plane-point.ts";
import { followRoad } from "./road-graph.ts";
import type { SightScene } from "./scene.ts";

/** How far past a leg's wanted length its lane is followed, meters, so that its foot can lie behind the intersection. */
const SPARE_M = 60;

/**
 * How far in meters from a leg's line the lane of traffic toward the intersection is looked for: its outermost lane, or its innermost, the one
 * beside the center or median. On a one-way street the outermost lane is the one at the right of its traffic where it drives on the right.
 */
export function laneOffsetM({ rules }: SightScene, { road, lanesIn }: Leg, which: "outer" | "inner"): number {
  const { laneM, oneway, details } = road;
  const incoming = Math.max(1, lanesIn);
  if (oneway !== 0) return (incoming / 2 - rules.laneShare) * laneM * (which === "outer" ? 1 : -1);
  // The line runs in the middle of the traveled way, also where one direction has more lanes than the other.
  const edgeM = (road.lanes * laneM + (details?.medianM ?? 0)) / 2;
  return which === "outer" ? edgeM - rules.laneShare * laneM : edgeM - (incoming - rules.laneShare) * laneM;
}

/** The center of the lane toward the intersection, from the intersection outward, at least `lengthM` meters where the data go on. */
export function laneToward(scene: SightScene, leg: Leg, offsetM: number, lengthM: number): PlanePoint[] {
  // Traffic that comes in along its right side runs on the left of the direction that leaves.
  const line = followRoad(scene.graph, leg.direction, lengthM + SPARE_M);
  return offsetLine(line, scene.drive === "right" ? offsetM : -offsetM);
}

/** The lane a driver waits in: beside the center of a two-way street, in the middle of a one-way one. */
export function waitingOffsetM(scene: SightScene, leg: Leg): number {
  return leg.road.oneway === 0 ? laneOffsetM(scene, leg, "inner") : 0;
}

/** The lane of crossing traffic that is nearest to a driver on a given side of it. */
export function nearestOffsetM(scene: SightScene, leg: Leg, side: "left" | "right"): number {
  const isNearSide = (side === "left") === (scene.drive === "right");
  return laneOffsetM(scene, leg, isNearSide ? "outer" : "inner");
}
