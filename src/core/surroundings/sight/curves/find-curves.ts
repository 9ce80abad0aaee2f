import { squaredToSegment } from "../../../plane/segments.ts";
import type { PlanePoint } from "../plane-point.ts";
import { fitCircle } from "./fit-circle.ts";

/** A horizontal curve in a line. */
export interface HorizontalCurve {
  /** Its first and last vertex in the line. */
  readonly first: number;
  readonly last: number;
  readonly xM: number;
  readonly yM: number;
  readonly radiusM: number;
  /** Length of the arc: radius times the whole turn. */
  readonly lengthM: number;
  /** Whole turn in degrees, positive to the left. */
  readonly turnDeg: number;
}

/** Vertices nearer to a straight line than this are drawing noise, meters. Our policy. */
const NOISE_M = 0.4;
/** Turns of less than this at a vertex of the thinned line say nothing. */
const LEAST_TURN_DEG = 0.5;
/** A side this many times as long as one beside it, that the arc would leave by more than the noise, is the tangent. Our policy. */
const LONG_SIDE = 3;
/** A side that the arc would leave by more than this, meters, is a straight between two curves. Our policy. */
const STRAIGHT_M = 2;
/** Largest error of a fitted circle, meters, before a bend is taken apart. Our policy. */
const ERROR_M = 1.5;
/** Largest radius looked at, meters: no sight line of a road leaves its pavement on a flatter curve. */
const FLATTEST_M = 3000;

/**
 * The horizontal curves of a line, in its order. The line is thinned to what noise cannot explain (Douglas and Peucker 1973), its runs of turns
 * to one side are taken together as long as no side between them is straight, and a circle is fitted to all original vertices of a run (Taubin
 * 1991). A bend that no circle fits is taken apart at its middle. Corners of one vertex have no radius and are none.
 */
export function findCurves(line: readonly PlanePoint[], leastTurnDeg: number): HorizontalCurve[] {
  const kept = thinned(line);
  const turns = kept.map((_, at) => (at === 0 || at === kept.length - 1 ? 0 : turnAt(line, kept, at)));
  const bends: Bend[] = [];
  for (let from = 1; from + 1 < kept.length; ) {
    if (Math.abs(turns[from]!) < LEAST_TURN_DEG) {
      from += 1;
      continue;
    }
    let to = from;
    while (to + 2 < kept.length && goesOn(line, kept, turns, to)) to += 1;
    bends.push({ from, to });
    from = to + 1;
  }
  return joined(line, kept, turns, bends).flatMap(({ from, to }) =>
    curvesOf(line, kept, turns, from, to, leastTurnDeg),
  );
}

/** A run of turns to one side, by its first and last kept vertex. */
interface Bend {
  readonly from: number;
  readonly to: number;
}

/** Bends to one side that lie on one circle as nearly as lines are drawn are one: a vertex drawn amiss has parted them. */
function joined(
  line: readonly PlanePoint[],
  kept: readonly number[],
  turns: readonly number[],
  bends: readonly Bend[],
): Bend[] {
  const result: Bend[] = [];
  for (let at = 0; at < bends.length; ) {
    let bend = bends[at]!;
    let next = at + 1;
    // The next bend, or the one behind a turn to the other side.
    for (let tried = next; tried < bends.length && tried <= next + 1; tried += 1) {
      const both = { from: bend.from, to: bends[tried]!.to };
      if (!isOneCurve(line, kept, turns, both, bends[tried]!)) continue;
      bend = both;
      next = tried + 1;
      tried = next - 1;
    }
    result.push(bend);
    at = next;
  }
  return result;
}

function isOneCurve(
  line: readonly PlanePoint[],
  kept: readonly number[],
  turns: readonly number[],
  { from, to }: Bend,
  last: Bend,
): boolean {
  const turnDeg = turnOf(turns, from, to);
  if (turnDeg * turnOf(turns, last.from, last.to) <= 0) return false;
  const points = line.slice(kept[from]!, kept[to]! + 1);
  const circle = fitCircle(points);
  if (circle === null || circle.errorM > NOISE_M) return false;
  const longestM = points.reduce(
    (most, point, at) => (at === 0 ? 0 : Math.max(most, distance(points[at - 1]!, point))),
    0,
  );
  return longestM ** 2 / (8 * circle.radiusM) <= STRAIGHT_M;
}

function turnOf(turns: readonly number[], from: number, to: number): number {
  let sum = 0;
  for (let at = from; at <= to; at += 1) sum += turns[at]!;
  return sum;
}

/** Whether the curve at a kept vertex goes on to the next one: the same side, and no straight between. */
function goesOn(line: readonly PlanePoint[], kept: readonly number[], turns: readonly number[], at: number): boolean {
  const [here, next] = [turns[at]!, turns[at + 1]!];
  if (here * next <= 0 || Math.abs(next) < LEAST_TURN_DEG) return false;
  const sideM = (from: number): number => distance(line[kept[from]!]!, line[kept[from + 1]!]!);
  // An arc that turns by t over a side leaves it by about side * t / 8.
  const leavesM = (sideM(at) * ((Math.max(Math.abs(here), Math.abs(next)) * Math.PI) / 180)) / 8;
  const isLong = sideM(at) > LONG_SIDE * Math.min(sideM(at - 1), sideM(at + 1));
  return leavesM <= (isLong ? NOISE_M : STRAIGHT_M);
}

function curvesOf(
  line: readonly PlanePoint[],
  kept: readonly number[],
  turns: readonly number[],
  from: number,
  to: number,
  leastTurnDeg: number,
): HorizontalCurve[] {
  const turnDeg = turnOf(turns, from, to);
  if (to === from || Math.abs(turnDeg) < leastTurnDeg) return [];
  const [first, last] = [kept[from]!, kept[to]!];
  const circle = first + 1 < last ? fitCircle(line.slice(first, last + 1)) : throughChord(line, first, last, turnDeg);
  if (circle === null || circle.radiusM > FLATTEST_M) return [];
  if (circle.errorM > ERROR_M) {
    const middle = (from + to) >> 1;
    return [
      ...curvesOf(line, kept, turns, from, middle, leastTurnDeg),
      ...curvesOf(line, kept, turns, middle + 1, to, leastTurnDeg),
    ];
  }
  // A circle on the other side of the line than the turns is noise.
  const [x, y] = line[first]!;
  const [tx, ty] = line[last]!;
  const isLeft = (tx - x) * (circle.yM - y) - (ty - y) * (circle.xM - x) > 0;
  if (isLeft !== turnDeg > 0) return [];
  const lengthM = (circle.radiusM * Math.abs(turnDeg) * Math.PI) / 180;
  return [{ first, last, xM: circle.xM, yM: circle.yM, radiusM: circle.radiusM, lengthM, turnDeg }];
}

/** A curve of two vertices: its chord turns the tangent by the mean of the two turns. */
function throughChord(
  line: readonly PlanePoint[],
  first: number,
  last: number,
  turnDeg: number,
): ReturnType<typeof fitCircle> {
  const [[ax, ay], [bx, by]] = [line[first]!, line[last]!];
  const half = (Math.abs(turnDeg) * Math.PI) / 180 / 4;
  const chordM = Math.hypot(bx - ax, by - ay);
  const radiusM = chordM / (2 * Math.sin(half));
  const asideM = radiusM * Math.cos(half) * Math.sign(turnDeg);
  return {
    xM: (ax + bx) / 2 - (asideM * (by - ay)) / chordM,
    yM: (ay + by) / 2 + (asideM * (bx - ax)) / chordM,
    radiusM,
    errorM: 0,
  };
}

/** Vertices that a straight line misses by more than the noise: Douglas and Peucker's method. */
function thinned(line: readonly PlanePoint[]): number[] {
  const keep = new Uint8Array(line.length);
  keep[0] = 1;
  keep[line.length - 1] = 1;
  const open: [number, number][] = [[0, line.length - 1]];
  for (let stretch = open.pop(); stretch !== undefined; stretch = open.pop()) {
    const [from, to] = stretch;
    const [[ax, ay], [bx, by]] = [line[from]!, line[to]!];
    let most = NOISE_M * NOISE_M;
    let farthest = -1;
    for (let at = from + 1; at < to; at += 1) {
      const squared = squaredToSegment(line[at]![0], line[at]![1], ax, ay, bx, by);
      if (squared <= most) continue;
      most = squared;
      farthest = at;
    }
    if (farthest < 0) continue;
    keep[farthest] = 1;
    open.push([from, farthest], [farthest, to]);
  }
  return [...keep.keys()].filter((at) => keep[at] === 1);
}

/** Turn in degrees at a kept vertex, positive to the left. */
function turnAt(line: readonly PlanePoint[], kept: readonly number[], at: number): number {
  const [ax, ay] = line[kept[at - 1]!]!;
  const [bx, by] = line[kept[at]!]!;
  const [cx, cy] = line[kept[at + 1]!]!;
  const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - bx, cy - by];
  return (Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) * 180) / Math.PI;
}

const distance = ([ax, ay]: PlanePoint, [bx, by]: PlanePoint): number => Math.hypot(bx - ax, by - ay);
