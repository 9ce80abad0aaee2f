import Flatbush from "flatbush";
import { bearingDeg } from "../../plane/bearing.ts";
import { toPlane } from "../../plane/plane.ts";
import { nearestShare } from "../../plane/segments.ts";
import { bearingGapDeg } from "../../units/compass.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import type { ControlSign } from "./read-signs.ts";
import { followRoad, isWithLine, type RoadGraph } from "./road-graph.ts";

/** What signs and signals say of the intersections of a plane. */
export interface SignedLegs {
  /** The sign that controls a leg, by the direction that leaves the intersection along it. */
  readonly signs: ReadonlyMap<number, ControlSign>;
  /** A sign that stands on an intersection itself and speaks for all its legs or for the lesser ones, by its node. */
  readonly atNodes: ReadonlyMap<number, ControlSign>;
  /** The first signal of an intersection, by its node. */
  readonly signals: ReadonlyMap<number, ControlSign>;
  /** Signs that control no leg, and signals of no intersection. */
  readonly loose: readonly ControlSign[];
}

/** Farthest in meters that a sign stands from the edge of its road. Our policy: MUTCD 2A asks 2 to 12 ft, corners are wider. */
const VERGE_M = 6;
/** A sign whose face turns farther than this, in degrees, from a leg does not control it. Our policy: half a right angle. */
const MAX_SKEW_DEG = 45;
/** A sign drawn this near to the line, meters, is drawn on it and says nothing by its side. */
const ON_LINE_M = 2;
/** A sign drawn this near to an intersection, meters, is drawn on it. */
const ON_NODE_M = 0.5;
/** What a leg on whose far side the sign stands must be nearer by, meters, to be taken all the same. Our policy. */
const WRONG_SIDE_M = 10;
/** What an intersection with driveways alone must be nearer by, meters, to be taken for a signal's. Our policy. */
const SERVICE_M = 15;

/**
 * The leg each sign controls: at an intersection within `reachM` of it, the leg its face looks along; where facing is not recorded, the
 * nearest leg with the sign on the side its drivers look for it. A signal controls its nearest intersection within that reach, and the other
 * carriageway's across the opening of a median.
 */
export function signedLegs(
  graph: RoadGraph,
  plane: number,
  intersections: readonly Intersection[],
  controls: readonly ControlSign[],
  reachM: number,
  drive: "right" | "left",
): SignedLegs {
  const signs = new Map<number, ControlSign>();
  const atNodes = new Map<number, ControlSign>();
  const signals = new Map<number, ControlSign>();
  if (intersections.length === 0) return { signs, atNodes, signals, loose: controls };
  const index = new Flatbush(intersections.length);
  for (const { node } of intersections) index.add(graph.xM[node]!, graph.yM[node]!);
  index.finish();
  const byNode = new Map(intersections.map((one) => [one.node, one]));

  const loose: ControlSign[] = [];
  for (const sign of controls) {
    const [x, y] = toPlane(plane, sign.lonDeg, sign.latDeg);
    const near = index
      .search(x - reachM, y - reachM, x + reachM, y + reachM)
      .sort((p, q) => p - q)
      .map((at) => intersections[at]!)
      .filter(({ node }) => awayM(graph, node, x, y) <= reachM);
    if (sign.kind === "signal") {
      const signaled = nearestSignaled(graph, near, x, y);
      if (signaled === null) loose.push(sign);
      else for (const node of acrossOpenings(signaled, byNode)) if (!signals.has(node)) signals.set(node, sign);
      continue;
    }
    const on = near.find(({ node }) => awayM(graph, node, x, y) <= ON_NODE_M);
    if (on !== undefined) {
      if (!atNodes.has(on.node)) atNodes.set(on.node, sign);
      continue;
    }
    let best: Leg | null = null;
    let bestScore = Number.POSITIVE_INFINITY;
    for (const { legs } of near) {
      for (const leg of legs) {
        const score = leg.arrives ? legScore(graph, leg, sign, x, y, reachM, drive) : Number.POSITIVE_INFINITY;
        if (score >= bestScore) continue;
        best = leg;
        bestScore = score;
      }
    }
    if (best === null) loose.push(sign);
    // Of a stop and a yield sign on one leg the stop sign holds.
    else if (!signs.has(best.direction) || sign.kind === "stop") {
      if (signs.get(best.direction)?.kind !== "stop") signs.set(best.direction, sign);
    }
  }
  return { signs, atNodes, signals, loose };
}

const awayM = (graph: RoadGraph, node: number, x: number, y: number): number =>
  Math.hypot(graph.xM[node]! - x, graph.yM[node]! - y);

function nearestSignaled(graph: RoadGraph, near: readonly Intersection[], x: number, y: number): Intersection | null {
  let best: Intersection | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const one of near) {
    const streets = one.legs.filter(({ isService }) => !isService).length;
    const score = awayM(graph, one.node, x, y) + (streets < 3 ? SERVICE_M : 0);
    if (score >= least) continue;
    best = one;
    least = score;
  }
  return best;
}

/** An intersection's node and those that openings of medians join to it. */
function acrossOpenings(start: Intersection, byNode: ReadonlyMap<number, Intersection>): number[] {
  const nodes = [start.node];
  for (let at = 0; at < nodes.length; at += 1) {
    for (const { opening } of byNode.get(nodes[at]!)?.legs ?? []) {
      if (opening !== null && !nodes.includes(opening.node)) nodes.push(opening.node);
    }
  }
  return nodes;
}

/** How badly a sign fits a leg, in meters; Infinity when it cannot control it. */
function legScore(
  graph: RoadGraph,
  { direction, road }: Leg,
  sign: ControlSign,
  x: number,
  y: number,
  reachM: number,
  drive: "right" | "left",
): number {
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
    if (alongM < ON_NODE_M || alongM > reachM || asideM > road.halfWidthM + VERGE_M) continue;
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
