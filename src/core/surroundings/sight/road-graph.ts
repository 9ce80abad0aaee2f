import Flatbush from "flatbush";
import { bearingDeg } from "../../plane/bearing.ts";
import { planesAcross, toPlane } from "../../plane/plane.ts";
import { crossingShare, nearestShare } from "../../plane/segments.ts";
import { spanOf } from "../../plane/shapes-builder.ts";
import { bearingGapDeg } from "../../units/compass.ts";
import type { Centerline } from "../centerline.ts";
import { pointAlong } from "./point-along.ts";

/** Ends of centerlines this near to another line are taken to meet it, meters. Our policy: more than drawing slips, less than a lane. */
const SNAP_M = 0.5;
/** Sharpest bend in degrees that a road is followed through at a node of several roads, and along one road. Our policy. */
const MAX_BEND_DEG = 45;
const MAX_BEND_SAME_ROAD_DEG = 100;

/**
 * The centerlines of one plane, joined where they share a vertex, touch or cross at the same level. Each edge has two directions: direction
 * `2 * edge` runs with the line it came from, `2 * edge + 1` against it.
 */
export interface RoadGraph {
  readonly xM: readonly number[];
  readonly yM: readonly number[];
  /** Directions that leave each vertex, in the order of the input. */
  readonly leaving: readonly (readonly number[])[];
  /** Vertex at the start of each direction. */
  readonly startOf: readonly number[];
  /** Centerline of each edge, its position in the list given. */
  readonly roadOf: readonly number[];
}

export const isWithLine = (direction: number): boolean => direction % 2 === 0;
export const reverseOf = (direction: number): number => direction ^ 1;
export const roadOfDirection = (graph: RoadGraph, direction: number): number => graph.roadOf[direction >> 1]!;
export const endOf = (graph: RoadGraph, direction: number): number => graph.startOf[reverseOf(direction)]!;

/** Bearing in degrees in which a direction leaves its start. */
export function bearingOf(graph: RoadGraph, direction: number): number {
  const from = graph.startOf[direction]!;
  const to = endOf(graph, direction);
  return bearingDeg(graph.xM[to]! - graph.xM[from]!, graph.yM[to]! - graph.yM[from]!);
}

/** Length in meters over which a leg's bearing is taken, past the rounding of the corner. Our choice. */
const BEARING_LENGTH_M = 15;

/** Bearing in degrees in which a leg leaves its intersection, over its first 15 m. */
export function legBearingDeg(graph: RoadGraph, direction: number): number {
  const points = followRoad(graph, direction, BEARING_LENGTH_M);
  const [x, y] = pointAlong(points, BEARING_LENGTH_M);
  return bearingDeg(x - points[0]![0], y - points[0]![1]);
}

/**
 * Points from a direction's start along the road for at least `lengthM` meters, or as far as it goes on: through each node the same road
 * first, then the straightest. Two points at least.
 */
export function followRoad(graph: RoadGraph, direction: number, lengthM: number): [xM: number, yM: number][] {
  const points: [number, number][] = [];
  const seen = new Set<number>();
  let doneM = 0;
  let current: number | null = direction;
  let vertex = graph.startOf[direction]!;
  points.push([graph.xM[vertex]!, graph.yM[vertex]!]);
  while (current !== null && doneM < lengthM && !seen.has(current >> 1)) {
    seen.add(current >> 1);
    const next = endOf(graph, current);
    doneM += Math.hypot(graph.xM[next]! - graph.xM[vertex]!, graph.yM[next]! - graph.yM[vertex]!);
    points.push([graph.xM[next]!, graph.yM[next]!]);
    vertex = next;
    current = onward(graph, current);
  }
  return points;
}

function onward(graph: RoadGraph, direction: number): number | null {
  const road = roadOfDirection(graph, direction);
  const heading = bearingOf(graph, direction);
  let best: number | null = null;
  let bestBend = Number.POSITIVE_INFINITY;
  for (const next of graph.leaving[endOf(graph, direction)]!) {
    if (next === reverseOf(direction)) continue;
    const isSame = roadOfDirection(graph, next) === road;
    const bend = bearingGapDeg(heading, bearingOf(graph, next));
    if (bend > (isSame ? MAX_BEND_SAME_ROAD_DEG : MAX_BEND_DEG)) continue;
    const ranked = isSame ? bend - 360 : bend;
    if (ranked < bestBend) {
      best = next;
      bestBend = ranked;
    }
  }
  return best;
}

interface Segment {
  readonly a: number;
  readonly b: number;
  readonly road: number;
  readonly splits: { share: number; vertex: number }[];
}

/** Joins the centerlines that reach a plane. Vertices that agree to 1e-7 degrees (a centimeter) are one. */
export function buildRoadGraph(centerlines: readonly Centerline[], plane: number): RoadGraph {
  const xM: number[] = [];
  const yM: number[] = [];
  const vertexAt = new Map<string, number>();
  const segments: Segment[] = [];
  const lineEnds: number[] = [];
  centerlines.forEach((centerline, road) => {
    const [westDeg, eastDeg, latDeg] = spanOf(centerline.lines);
    if (!planesAcross(westDeg, eastDeg, latDeg).includes(plane)) return;
    for (const line of centerline.lines) {
      let before = -1;
      line.forEach(([lonDeg, latDeg], at) => {
        const key = `${Math.round(lonDeg! * 1e7)},${Math.round(latDeg! * 1e7)}`;
        let vertex = vertexAt.get(key);
        if (vertex === undefined) {
          vertex = xM.length;
          vertexAt.set(key, vertex);
          const [x, y] = toPlane(plane, lonDeg!, latDeg!);
          xM.push(x);
          yM.push(y);
        }
        if (before >= 0 && before !== vertex) segments.push({ a: before, b: vertex, road, splits: [] });
        if (at === 0 || at === line.length - 1) lineEnds.push(vertex);
        before = vertex;
      });
    }
  });
  const same = joinSegments(segments, lineEnds, xM, yM, (road) => centerlines[road]!.level);
  return linked(segments, same, xM, yM);
}

/** Splits segments where they cross or are touched, adding vertices; answers which vertices are one. */
function joinSegments(
  segments: readonly Segment[],
  lineEnds: readonly number[],
  xM: number[],
  yM: number[],
  levelOf: (road: number) => number,
): (vertex: number) => number {
  const parent: number[] = xM.map((_, at) => at);
  const root = (vertex: number): number => {
    let at = vertex;
    while (parent[at] !== undefined && parent[at] !== at) at = parent[at]!;
    return at;
  };
  const merge = (one: number, other: number): void => {
    const [low, high] = [root(one), root(other)].sort((p, q) => p - q) as [number, number];
    parent[high] = low;
  };
  if (segments.length === 0) return root;
  const index = new Flatbush(segments.length);
  for (const { a, b } of segments) {
    index.add(Math.min(xM[a]!, xM[b]!), Math.min(yM[a]!, yM[b]!), Math.max(xM[a]!, xM[b]!), Math.max(yM[a]!, yM[b]!));
  }
  index.finish();

  for (const end of new Set(lineEnds)) {
    const [x, y] = [xM[end]!, yM[end]!];
    const near = index.search(x - SNAP_M, y - SNAP_M, x + SNAP_M, y + SNAP_M).sort((p, q) => p - q);
    for (const at of near) {
      const { a, b, splits } = segments[at]!;
      if (root(a) === root(end) || root(b) === root(end)) continue;
      const share = nearestShare(x, y, xM[a]!, yM[a]!, xM[b]!, yM[b]!);
      const [nx, ny] = [xM[a]! + share * (xM[b]! - xM[a]!), yM[a]! + share * (yM[b]! - yM[a]!)];
      if (Math.hypot(nx - x, ny - y) > SNAP_M) continue;
      if (Math.hypot(nx - xM[a]!, ny - yM[a]!) <= SNAP_M) merge(a, end);
      else if (Math.hypot(nx - xM[b]!, ny - yM[b]!) <= SNAP_M) merge(b, end);
      else splits.push({ share, vertex: end });
    }
  }

  segments.forEach((one, first) => {
    const [ax, ay, bx, by] = [xM[one.a]!, yM[one.a]!, xM[one.b]!, yM[one.b]!];
    const near = index.search(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
    for (const second of near.sort((p, q) => p - q)) {
      if (second <= first) continue;
      const other = segments[second]!;
      if (levelOf(one.road) !== levelOf(other.road)) continue;
      const ends = [root(other.a), root(other.b)];
      if (ends.includes(root(one.a)) || ends.includes(root(one.b))) continue;
      const [cx, cy, dx, dy] = [xM[other.a]!, yM[other.a]!, xM[other.b]!, yM[other.b]!];
      const share = crossingShare(ax, ay, bx, by, cx, cy, dx, dy);
      if (Number.isNaN(share)) continue;
      const [x, y] = [ax + share * (bx - ax), ay + share * (by - ay)];
      if ([...one.splits, ...other.splits].some(({ vertex }) => Math.hypot(xM[vertex]! - x, yM[vertex]! - y) <= SNAP_M))
        continue;
      const vertex = xM.length;
      xM.push(x);
      yM.push(y);
      parent.push(vertex);
      one.splits.push({ share, vertex });
      other.splits.push({ share: nearestShare(x, y, cx, cy, dx, dy), vertex });
    }
  });
  return root;
}

function linked(segments: readonly Segment[], same: (vertex: number) => number, xM: number[], yM: number[]): RoadGraph {
  const leaving: number[][] = xM.map(() => []);
  const startOf: number[] = [];
  const roadOf: number[] = [];
  const known = new Set<string>();
  for (const { a, b, road, splits } of segments) {
    const stops = [...splits].sort((p, q) => p.share - q.share || p.vertex - q.vertex).map(({ vertex }) => vertex);
    let from = same(a);
    for (const next of [...stops, b]) {
      const to = same(next);
      // The same stretch drawn twice is one edge: it would make a node of every vertex.
      const key = from < to ? `${from} ${to}` : `${to} ${from}`;
      if (to !== from && !known.has(key)) {
        known.add(key);
        const direction = startOf.length;
        startOf.push(from, to);
        roadOf.push(road);
        leaving[from]!.push(direction);
        leaving[to]!.push(direction + 1);
      }
      from = to;
    }
  }
  return { xM, yM, leaving, startOf, roadOf };
}
