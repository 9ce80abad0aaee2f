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

/** Stretches of a straight piece from which a wall hides the line. */
function behindWall(scan: SightScan, wall: Wall, fromM: number, toM: number): number[] {
  const line: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };
  const { cx, cy, dx, dy, bottomM, topM } = wall;
  const toA = (l: SightLine): number => side(cx, cy, dx, dy, l.ax, l.ay);
  const toB = (l: SightLine): number => side(cx, cy, dx, dy, l.bx, l.by);
  // Sides of points and lines are polynomials of the position, at most quadratic: three values give them.
  const sides: readonly ((l: SightLine) => number)[] = [
    (l) => side(l.ax, l.ay, l.bx, l.by, cx, cy),
    (l) => side(l.ax, l.ay, l.bx, l.by, dx, dy),
    toA,
    toB,
    // A rising line meets the wall's line at the height of its edge where that height's share of the way lies on it.
    ...[bottomM, topM].map((heightM) => {
      const share = shareAtHeight(scan, heightM);
      return (l: SightLine): number => (1 - share) * toA(l) + share * toB(l);
    }),
  ];
  const valueAt = (of: (l: SightLine) => number, share: number): number => {
    scan.lineInto(line, fromM + share * (toM - fromM));
    return of(line);
  };
  const turns = [0, 1];
  for (const of of sides) {
    turns.push(...rootsBetween(valueAt(of, 0), valueAt(of, 0.5), valueAt(of, 1)));
  }
  turns.sort((one, other) => one - other);
  const hidden: number[] = [];
  for (let at = 0; at + 1 < turns.length; at += 1) {
    const [from, to] = [turns[at]!, turns[at + 1]!];
    if (!(to > from)) continue;
    scan.lineInto(line, fromM + ((from + to) / 2) * (toM - fromM));
    const share = crossingShare(line.ax, line.ay, line.bx, line.by, cx, cy, dx, dy);
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

/** Shares strictly between 0 and 1 at which a quadratic with these values at 0, 1/2 and 1 is 0. */
function rootsBetween(atStart: number, atMiddle: number, atEnd: number): number[] {
  const a = 2 * (atStart + atEnd - 2 * atMiddle);
  const b = atEnd - atStart - a;
  const c = atStart;
  const isInside = (share: number): boolean => share > 0 && share < 1;
  if (a === 0) return b === 0 ? [] : [-c / b].filter(isInside);
  const inner = b * b - 4 * a * c;
  if (inner < 0) return [];
  // The form that loses no digits when b is large.
  const half = -(b + (b < 0 ? -1 : 1) * Math.sqrt(inner)) / 2;
  return [half / a, ...(half === 0 ? [] : [c / half])].filter(isInside);
}
