import type { PlaneShapes } from "../../plane/plane-shapes.ts";
import { crossingShare } from "../../plane/segments.ts";
import type { Envelope } from "../../surroundings/surroundings.ts";
import { union } from "./interval-set.ts";
import type { SightLine, SightScan } from "./sight-scan.ts";

/**
 * The vehicle positions, meters along the lane, from which a building's wall hides the middle of the other end. Exact: between the positions at which a
 * line passes an end, the top or the underside of a wall, or an end of the line reaches the wall's line, nothing changes. Heights count from level ground.
 */
export function hiddenByWalls(scan: SightScan, shapes: PlaneShapes, envelopes: readonly Envelope[]): number[] {
  const hidden: number[][] = [];
  const breaks = scan.breaksM();
  for (let piece = 0; piece + 1 < breaks.length; piece += 1) {
    const [fromM, toM] = [breaks[piece]!, breaks[piece + 1]!];
    if (!(toM > fromM)) continue;
    for (const wall of wallsNear(scan, shapes, envelopes, fromM, toM)) hidden.push(behindWall(scan, wall, fromM, toM));
  }
  return union(...hidden);
}

interface Wall {
  readonly cx: number;
  readonly cy: number;
  readonly dx: number;
  readonly dy: number;
  readonly bottomM: number;
  readonly topM: number;
}

/** Walls in the box about all lines of a stretch. */
function wallsNear(
  scan: SightScan,
  shapes: PlaneShapes,
  envelopes: readonly Envelope[],
  fromM: number,
  toM: number,
): Wall[] {
  const first: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };
  const last: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };
  scan.lineInto(first, fromM);
  scan.lineInto(last, toM);
  const xs = [first.ax, first.bx, last.ax, last.bx];
  const ys = [first.ay, first.by, last.ay, last.by];
  const walls: Wall[] = [];
  const { chunkItem, chunkFrom, chunkTo, itemOwner, parts } = shapes;
  shapes.chunks?.search(Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys), (chunk) => {
    const building = envelopes[itemOwner[chunkItem[chunk]!]!]!;
    if (building.type !== "building") return false;
    for (let at = chunkFrom[chunk]!; at < chunkTo[chunk]!; at += 1) {
      walls.push({
        cx: parts.xy[2 * at]!,
        cy: parts.xy[2 * at + 1]!,
        dx: parts.xy[2 * at + 2]!,
        dy: parts.xy[2 * at + 3]!,
        bottomM: building.bottomM,
        topM: building.heightM,
      });
    }
    return false;
  });
  return walls;
}

/** Sides whose signs tell whether a wall hides a line: of its ends to the line, of the line's ends to it, of its edges to the rising line. */
const SIDE_COUNT = 6;
/** Working space of one wall after another, never read across calls: the sides at the beginning, middle and end of a piece, and a line. */
const SIDES = new Float64Array(3 * SIDE_COUNT);
const LINE: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };

const ascending = (one: number, other: number): number => one - other;

function writeSides(
  sides: Float64Array,
  at: number,
  { ax, ay, bx, by }: SightLine,
  { cx, cy, dx, dy }: Wall,
  bottomShare: number,
  topShare: number,
): void {
  const toA = side(cx, cy, dx, dy, ax, ay);
  const toB = side(cx, cy, dx, dy, bx, by);
  sides[at] = side(ax, ay, bx, by, cx, cy);
  sides[at + 1] = side(ax, ay, bx, by, dx, dy);
  sides[at + 2] = toA;
  sides[at + 3] = toB;
  // A rising line meets the wall's line at the height of its edge where that height's share of the way lies on it.
  sides[at + 4] = (1 - bottomShare) * toA + bottomShare * toB;
  sides[at + 5] = (1 - topShare) * toA + topShare * toB;
}

/** Stretches of a straight piece from which a wall hides the line. */
function behindWall(scan: SightScan, wall: Wall, fromM: number, toM: number): number[] {
  const { cx, cy, dx, dy, bottomM, topM } = wall;
  const bottomShare = shareAtHeight(scan, bottomM);
  const topShare = shareAtHeight(scan, topM);
  // Sides of points and lines are polynomials of the position, at most quadratic: three values give them.
  for (let at = 0; at < 3; at += 1) {
    scan.lineInto(LINE, fromM + (at / 2) * (toM - fromM));
    writeSides(SIDES, at * SIDE_COUNT, LINE, wall, bottomShare, topShare);
  }
  const turns = [0, 1];
  for (let of = 0; of < SIDE_COUNT; of += 1) {
    addRoots(turns, SIDES[of]!, SIDES[SIDE_COUNT + of]!, SIDES[2 * SIDE_COUNT + of]!);
  }
  turns.sort(ascending);
  const hidden: number[] = [];
  for (let at = 0; at + 1 < turns.length; at += 1) {
    const [from, to] = [turns[at]!, turns[at + 1]!];
    if (!(to > from)) continue;
    scan.lineInto(LINE, fromM + ((from + to) / 2) * (toM - fromM));
    const share = crossingShare(LINE.ax, LINE.ay, LINE.bx, LINE.by, cx, cy, dx, dy);
    if (Number.isNaN(share) || !isAtWall(scan, wall, share)) continue;
    hidden.push(fromM + from * (toM - fromM), fromM + to * (toM - fromM));
  }
  return hidden;
}

/** Share of the way from the vehicle at which a line has a height; 0 for level lines, where it decides nothing. */
function shareAtHeight(scan: SightScan, heightM: number): number {
  const { laneEndM, otherEndM } = scan.lines;
  const riseM = (otherEndM[0] + otherEndM[1]) / 2 - laneEndM;
  return riseM === 0 ? 0 : Math.min(1, Math.max(0, (heightM - laneEndM) / riseM));
}

function isAtWall(scan: SightScan, { bottomM, topM }: Wall, share: number): boolean {
  const { laneEndM, otherEndM } = scan.lines;
  const heightM = laneEndM + share * ((otherEndM[0] + otherEndM[1]) / 2 - laneEndM);
  return heightM >= bottomM && heightM <= topM;
}

/** Twice the area of the triangle a-b-p: above 0 where p lies to the left of the line from a to b. */
const side = (ax: number, ay: number, bx: number, by: number, px: number, py: number): number =>
  (bx - ax) * (py - ay) - (by - ay) * (px - ax);

/** Adds the shares strictly between 0 and 1 at which a quadratic with these values at 0, 1/2 and 1 is 0. */
function addRoots(roots: number[], atStart: number, atMiddle: number, atEnd: number): void {
  const a = 2 * (atStart + atEnd - 2 * atMiddle);
  const b = atEnd - atStart - a;
  const c = atStart;
  if (a === 0) {
    if (b !== 0) addInside(roots, -c / b);
    return;
  }
  const inner = b * b - 4 * a * c;
  if (inner < 0) return;
  // The form that loses no digits when b is large.
  const half = -(b + (b < 0 ? -1 : 1) * Math.sqrt(inner)) / 2;
  addInside(roots, half / a);
  if (half !== 0) addInside(roots, c / half);
}

function addInside(roots: number[], share: number): void {
  if (share > 0 && share < 1) roots.push(share);
}
