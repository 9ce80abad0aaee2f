import Flatbush from "flatbush";
import { bearingDeg } from "../../plane/bearing.ts";
import { toPlane } from "../../plane/plane.ts";
import { nearestShare } from "../../plane/segments.ts";
import { bearingGapDeg } from "../../units/compass.ts";
import type { StopSign } from "./read-signs.ts";
import type { Centerline } from "../read-ways.ts";
import { followRoad, isWithLine, type RoadGraph, roadOfDirection } from "./road-graph.ts";

/** A leg of an intersection that must stop: its node, the direction that leaves the node along it, and by which sign. */
export interface StoppedLeg {
  readonly node: number;
  readonly direction: number;
  readonly sign: StopSign;
  /** False when the sign's facing is not recorded and the leg is the likeliest. */
  readonly isFacingKnown: boolean;
}

/** Farthest in meters that a stop sign stands from the edge of its road. Our policy: MUTCD 2A asks 2 to 12 ft, corners are wider. */
const VERGE_M = 6;
/** A sign whose face turns farther than this, in degrees, from a leg does not control it. Our policy: half a right angle. */
const MAX_SKEW_DEG = 45;
/** A sign drawn this near to the line, meters, is drawn on it and says nothing by its side. */
const ON_LINE_M = 2;
/** What a leg on whose far side the sign stands must be nearer by, meters, to be taken all the same. Our policy. */
const WRONG_SIDE_M = 10;

/**
 * The leg each sign controls: at an intersection within `reachM` of it, the leg its face looks along; where facing is not recorded, the
 * nearest leg with the sign on the side its drivers look for it. Legs by their direction; signs that fit none are answered in `loose`.
 */
export function stoppedLegs(
  graph: RoadGraph,
  plane: number,
  centerlines: readonly Centerline[],
  signs: readonly StopSign[],
  reachM: number,
  drive: "right" | "left",
): { legs: ReadonlyMap<number, StoppedLeg>; loose: StopSign[] } {
  const nodes: number[] = [];
  graph.leaving.forEach((leaving, vertex) => {
    if (leaving.length >= 3) nodes.push(vertex);
  });
  if (nodes.length === 0) return { legs: new Map(), loose: [...signs] };
  const index = new Flatbush(nodes.length);
  for (const node of nodes) index.add(graph.xM[node]!, graph.yM[node]!);
  index.finish();

  const legs = new Map<number, StoppedLeg>();
  const loose: StopSign[] = [];
  for (const sign of signs) {
    const [x, y] = toPlane(plane, sign.lonDeg, sign.latDeg);
    let best: { node: number; direction: number } | null = null;
    let bestScore = Number.POSITIVE_INFINITY;
    for (const at of index.search(x - reachM, y - reachM, x + reachM, y + reachM).sort((p, q) => p - q)) {
      const node = nodes[at]!;
      if (Math.hypot(graph.xM[node]! - x, graph.yM[node]! - y) > reachM) continue;
      for (const direction of graph.leaving[node]!) {
        const score = legScore(graph, direction, centerlines, sign, x, y, reachM, drive);
        if (score >= bestScore) continue;
        best = { node, direction };
        bestScore = score;
      }
    }
    if (best === null) loose.push(sign);
    else if (!legs.has(best.direction))
      legs.set(best.direction, { ...best, sign, isFacingKnown: sign.facing !== null });
  }
  return { legs, loose };
}

/** How badly a sign fits a leg, in meters; Infinity when it cannot control it. */
function legScore(
  graph: RoadGraph,
  direction: number,
  centerlines: readonly Centerline[],
  sign: StopSign,
  x: number,
  y: number,
  reachM: number,
  drive: "right" | "left",
): number {
  const road = centerlines[roadOfDirection(graph, direction)]!;
  const points = followRoad(graph, direction, reachM);
  let best = Number.POSITIVE_INFINITY;
  let doneM = 0;
  for (let at = 0; at + 1 < points.length; at += 1) {
    const [ax, ay] = points[at]!;
    const [bx, by] = points[at + 1]!;
    const lengthM = Math.hypot(bx - ax, by - ay);
    const share = nearestShare(x, y, ax, ay, bx, by);
    const [dx, dy] = [x - ax - share * (bx - ax), y - ay - share * (by - ay)];
    const asideM = Math.hypot(dx, dy);
    const alongM = doneM + share * lengthM;
    doneM += lengthM;
    // At the node itself every leg is as near; a sign stands along its leg.
    if (alongM < 0.5 || alongM > reachM || asideM > road.halfWidthM + VERGE_M) continue;
    if (typeof sign.facing === "number" && bearingGapDeg(sign.facing, bearingDeg(bx - ax, by - ay)) > MAX_SKEW_DEG)
      continue;
    if (sign.facing === "forward" || sign.facing === "backward") {
      // Traffic that comes to the node runs against the direction that leaves it.
      if (asideM > ON_LINE_M || (sign.facing === "forward") === isWithLine(direction)) continue;
    }
    // Drivers come toward the node: their right is the left of the direction that leaves it.
    const isLeft = (bx - ax) * dy - (by - ay) * dx > 0;
    const isRightSide = asideM <= ON_LINE_M || isLeft === (drive === "right");
    best = Math.min(best, asideM + alongM / 10 + (isRightSide ? 0 : WRONG_SIDE_M));
  }
  return best;
}
