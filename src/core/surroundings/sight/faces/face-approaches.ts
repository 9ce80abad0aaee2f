import { bearingGapDeg } from "../../../units/compass.ts";
import type { Centerline } from "../../centerline.ts";
import type { PlanePoint } from "../plane-point.ts";
import { bearingOf, endOf, followRoad, isWithLine, type RoadGraph, reverseOf, roadOfDirection } from "../road-graph.ts";
import type { EdgeIndex, NearEdge } from "./edge-index.ts";
import type { Face } from "./face.ts";

/** A road along which drivers come toward a face. */
export interface FaceApproach {
  readonly road: Centerline;
  /** From the face's foot upstream, against traffic. */
  readonly upstream: readonly PlanePoint[];
  /** Meters upstream from the foot to the stop line; 0 for signs. */
  readonly stopLineM: number;
  /** Whether the face is drawn on the road's line, so that nobody knows on which side it stands. */
  readonly isOnLine: boolean;
  /** How it is known that the face is for these drivers, in words. */
  readonly source: string;
  /** Whether that is inferred. */
  readonly isAssumed: boolean;
}

/** Farthest in meters that a sign stands from the edge of its road. Our policy: MUTCD 2A asks 2 to 12 ft, corners are wider. */
const VERGE_M = 8;
/** Farthest in meters that a signal's face stands from its road's line: across the intersection, 180 ft beyond the stop line at most (MUTCD 4D.08). */
const SIGNAL_REACH_M = 24;
/** How far in meters from the face upstream the intersection it controls can lie: 180 ft (MUTCD 4D.08). */
const BEYOND_M = 55;
/** A face that turns farther than this from where drivers come, degrees, is not for them. Our policy: half a right angle. */
const MAX_SKEW_DEG = 45;
/** A face this near to a line is drawn on it; one this near to a node is drawn on that. */
const ON_LINE_M = 2;
const ON_NODE_M = 3;
/** Farthest in meters that an intersection is looked for, to which a face drawn on the line belongs. Our policy. */
const TOWARD_M = 80;
/** From the edge of the road crossed to the stop line: 4 ft (MUTCD 3B, from memory). */
const STOP_LINE_M = 1.2;

/**
 * The approaches whose drivers a face is for: by its recorded facing, else inferred. A sign beside a road is for traffic that has it on its own side; a
 * face drawn on the line is for traffic toward the nearer intersection; a signal drawn on an intersection is for all approaches.
 */
export function faceApproaches(
  face: Face,
  xM: number,
  yM: number,
  edges: EdgeIndex,
  centerlines: readonly Centerline[],
  lengthM: number,
  drive: "right" | "left",
): FaceApproach[] {
  const { graph } = edges;
  const isSignal = face.kind === "signal";
  const near = edges.near(xM, yM, isSignal ? SIGNAL_REACH_M : VERGE_M + WIDEST_HALF_M).filter(({ edge, asideM }) => {
    const road = centerlines[graph.roadOf[edge]!]!;
    return road.level === 0 && (isSignal || asideM <= road.halfWidthM + VERGE_M);
  });
  if (isSignal && face.facing === null) {
    const node = nodeAt(graph, near, xM, yM);
    if (node !== null) return allToward(graph, centerlines, node, lengthM);
  }
  let best: { readonly one: NearEdge; readonly flow: number } | null = null;
  let bestScore = Number.POSITIVE_INFINITY;
  for (const one of near) {
    for (const flow of [2 * one.edge, 2 * one.edge + 1]) {
      const score = flowScore(graph, centerlines, face, one, flow, drive);
      if (score >= bestScore) continue;
      best = { one, flow };
      bestScore = score;
    }
  }
  if (best === null) return [];
  const { one, flow } = best;
  const road = centerlines[roadOfDirection(graph, flow)]!;
  const upstream = upstreamFrom(graph, one, reverseOf(flow), lengthM);
  return [
    {
      road,
      upstream,
      stopLineM: isSignal ? stopLineBehind(graph, centerlines, one, reverseOf(flow)) : 0,
      isOnLine: one.asideM <= ON_LINE_M,
      source: face.facing === null ? "the nearest approach" : "its recorded facing",
      isAssumed: face.facing === null,
    },
  ];
}

/** Half the widest road that a sign can stand beside, meters. */
const WIDEST_HALF_M = 16;

/** How badly a flow of traffic fits a face, in meters; Infinity when the face is not for it. */
function flowScore(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  face: Face,
  foot: NearEdge,
  flow: number,
  drive: "right" | "left",
): number {
  const { asideM, isLeft } = foot;
  const road = centerlines[roadOfDirection(graph, flow)]!;
  if (!runs(road, flow)) return Number.POSITIVE_INFINITY;
  // Service ways are beside every lot; a street's sign is the street's.
  const service = road.roadClass === "service-alley" ? 2 * VERGE_M : 0;
  const isOnLine = asideM <= ON_LINE_M;
  if (typeof face.facing === "number") {
    const gapDeg = bearingGapDeg(face.facing, bearingOf(graph, reverseOf(flow)));
    return gapDeg > MAX_SKEW_DEG ? Number.POSITIVE_INFINITY : asideM + service + gapDeg / 9;
  }
  if (face.facing !== null) {
    const isSaid = isOnLine && (face.facing === "forward") === isWithLine(flow);
    return isSaid ? asideM : Number.POSITIVE_INFINITY;
  }
  if (isOnLine || face.kind === "signal") {
    const aheadM = fromFootM(graph, foot, flow) + beyondM(graph, flow);
    return asideM + service + Math.min(TOWARD_M, aheadM) / 10;
  }
  const isOnRight = isLeft !== isWithLine(flow);
  return asideM + service + (isOnRight === (drive === "right") || road.oneway !== 0 ? 0 : VERGE_M);
}

/** Whether traffic may run in a direction. */
const runs = ({ oneway }: Centerline, direction: number): boolean =>
  oneway === 0 || (oneway === 1) === isWithLine(direction);

/** The intersection a face is drawn on; null for none. */
function nodeAt(graph: RoadGraph, near: readonly NearEdge[], xM: number, yM: number): number | null {
  let best: number | null = null;
  let least = ON_NODE_M;
  for (const { edge } of near) {
    for (const node of [graph.startOf[2 * edge]!, endOf(graph, 2 * edge)]) {
      const awayM = Math.hypot(graph.xM[node]! - xM, graph.yM[node]! - yM);
      if (awayM >= least || graph.leaving[node]!.length < 3) continue;
      best = node;
      least = awayM;
    }
  }
  return best;
}

function allToward(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  node: number,
  lengthM: number,
): FaceApproach[] {
  const leaving = graph.leaving[node]!;
  return leaving
    .filter((direction) => {
      const road = centerlines[roadOfDirection(graph, direction)]!;
      return runs(road, reverseOf(direction)) && road.roadClass !== "service-alley";
    })
    .map((direction) => ({
      road: centerlines[roadOfDirection(graph, direction)]!,
      upstream: followRoad(graph, direction, lengthM),
      stopLineM: crossedHalfM(graph, centerlines, node, direction) + STOP_LINE_M,
      isOnLine: true,
      source: "all approaches of the intersection it is drawn on",
      isAssumed: true,
    }));
}

/** Half the widest other road at a node, meters. */
function crossedHalfM(graph: RoadGraph, centerlines: readonly Centerline[], node: number, own: number): number {
  const road = roadOfDirection(graph, own);
  return graph.leaving[node]!.reduce((most, direction) => {
    const other = roadOfDirection(graph, direction);
    return other === road ? most : Math.max(most, centerlines[other]!.halfWidthM);
  }, 0);
}

/** From a face's foot upstream, over the rest of its edge and on. */
function upstreamFrom(graph: RoadGraph, { xM, yM }: NearEdge, upstream: number, lengthM: number): PlanePoint[] {
  const points = followRoad(graph, upstream, lengthM + lengthOf(graph, upstream));
  const [x, y] = points[1]!;
  // A foot on the upstream vertex itself would make an edge of no length.
  return Math.hypot(x - xM, y - yM) > 1e-6 ? [[xM, yM], ...points.slice(1)] : points.slice(1);
}

/**
 * Meters upstream from a signal's foot to the stop line. A face nearer to the intersection ahead of its traffic stands at the stop line; one
 * nearer to that behind it stands across: the stop line is then behind that intersection, and behind the other carriageway's where the road is divided.
 */
function stopLineBehind(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  foot: NearEdge,
  upstream: number,
): number {
  const isStreet = (direction: number): boolean =>
    centerlines[roadOfDirection(graph, direction)]!.roadClass !== "service-alley";
  const isIntersection = (node: number): boolean => graph.leaving[node]!.filter(isStreet).length >= 3;
  let doneM = fromFootM(graph, foot, upstream);
  const aheadM = fromFootM(graph, foot, reverseOf(upstream)) + beyondM(graph, reverseOf(upstream));
  let stopM = 0;
  let lastM = Math.min(BEYOND_M, aheadM);
  for (let current = upstream; doneM < lastM; ) {
    const node = endOf(graph, current);
    if (isIntersection(node)) {
      stopM = doneM + crossedHalfM(graph, centerlines, node, current) + STOP_LINE_M;
      lastM = doneM + CARRIAGEWAYS_M;
    }
    const heading = bearingOf(graph, current);
    const bend = (direction: number): number => bearingGapDeg(heading, bearingOf(graph, direction));
    const next = graph.leaving[node]!.filter((direction) => direction !== reverseOf(current)).sort(
      (one, other) => bend(one) - bend(other),
    )[0];
    if (next === undefined || bend(next) > MAX_SKEW_DEG) break;
    current = next;
    doneM += lengthOf(graph, current);
  }
  return stopM;
}

/** Farthest in meters between the centers of two carriageways of one crossed road. Our choice. */
const CARRIAGEWAYS_M = 25;

/** Meters from a foot to the end of a direction of its edge. */
function fromFootM(graph: RoadGraph, { xM, yM }: NearEdge, direction: number): number {
  const end = endOf(graph, direction);
  return Math.hypot(graph.xM[end]! - xM, graph.yM[end]! - yM);
}

/** Meters from the end of a direction on to the first node of three roads, 0 when it is one; at most what is looked for. */
function beyondM(graph: RoadGraph, direction: number): number {
  let current = direction;
  let doneM = 0;
  while (doneM < TOWARD_M) {
    const leaving = graph.leaving[endOf(graph, current)]!;
    if (leaving.length >= 3) return doneM;
    const next = leaving.find((one) => one !== reverseOf(current));
    if (next === undefined) return TOWARD_M;
    current = next;
    doneM += lengthOf(graph, current);
  }
  return TOWARD_M;
}

function lengthOf(graph: RoadGraph, direction: number): number {
  const [a, b] = [graph.startOf[direction]!, endOf(graph, direction)];
  return Math.hypot(graph.xM[b]! - graph.xM[a]!, graph.yM[b]! - graph.yM[a]!);
}
