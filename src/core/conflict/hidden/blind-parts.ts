import type { MultiPolygon, Position } from "geojson";
import type { CrownSize } from "../crown-size.ts";
import { bandOf, type TrunkAt } from "./hidden-parts.ts";
import type { SightLine, SightScan } from "./sight-scan.ts";
import { ViewPast } from "./view-past.ts";

/** A crown or trunk that hides something, where it stands in the scan's plane. */
export interface Hiding {
  readonly at: TrunkAt;
  readonly size: CrownSize;
}

/** Lines drawn for each hidden part, at least and at most, and about one a so many meters. */
const LEAST_LINES = 4;
const MOST_LINES = 24;
const LINE_EVERY_M = 3;

/**
 * The parts of an area that lie behind trees, as polygons: for each hidden part of the lane the ground between what hides it, as seen from the
 * fixed end, and the lane. Around a curve, where both ends move, the ground between what hides and the far end. For drawing: found along
 * some lines of each part. Null when nothing is hidden.
 */
export function blindParts(
  scan: SightScan,
  partsM: readonly (readonly [number, number])[],
  hiding: readonly Hiding[],
  toLonLat: (xM: number, yM: number) => readonly [number, number],
): MultiPolygon | null {
  const band = bandOf(scan, "middle");
  const solids = hiding.map(({ at, size }) => ({ at, past: new ViewPast(size, band, scan.movesWhole) }));
  const polygons: Position[][][] = [];
  for (const [fromM, toM] of partsM) {
    const count = Math.min(MOST_LINES, Math.max(LEAST_LINES, Math.ceil((toM - fromM) / LINE_EVERY_M)));
    const near: Position[] = [];
    const far: Position[] = [];
    for (let step = 0; step <= count; step += 1) {
      // A hair inside the part, where something surely stands in the line.
      const share = 0.001 + (0.998 * step) / count;
      const ends = blindEnds(scan, fromM + share * (toM - fromM), solids);
      if (ends === null) continue;
      near.push([...toLonLat(...ends.from)]);
      far.push([...toLonLat(...ends.to)]);
    }
    if (near.length < 2) continue;
    polygons.push([[...near, ...far.reverse(), near[0]!]]);
  }
  return polygons.length === 0 ? null : { type: "MultiPolygon", coordinates: polygons.map(counterclockwise) };
}

interface Solid {
  readonly at: TrunkAt;
  readonly past: ViewPast;
}

/** Where a line is first hidden as seen from its fixed end, or around a curve from its driver, and its end behind. */
function blindEnds(
  scan: SightScan,
  alongM: number,
  solids: readonly Solid[],
): { from: [number, number]; to: [number, number] } | null {
  const line: SightLine = { ax: 0, ay: 0, bx: 0, by: 0 };
  const fromDriver = scan.movesWhole;
  let best = Number.NaN;
  for (const { at, past } of solids) {
    scan.lineInto(line, alongM);
    const { xM, yM } = at;
    const relative = { ax: line.ax - xM, ay: line.ay - yM, bx: line.bx - xM, by: line.by - yM };
    const share = past.clearShare(relative) > 0 ? Number.NaN : past.meetsAt(relative, !fromDriver);
    if (Number.isNaN(share)) continue;
    if (Number.isNaN(best) || (fromDriver ? share < best : share > best)) best = share;
  }
  if (Number.isNaN(best)) return null;
  scan.lineInto(line, alongM);
  const from: [number, number] = [line.ax + best * (line.bx - line.ax), line.ay + best * (line.by - line.ay)];
  return { from, to: fromDriver ? [line.bx, line.by] : [line.ax, line.ay] };
}

/** A polygon with its ring wound as RFC 7946 asks. */
function counterclockwise([ring]: Position[][]): Position[][] {
  let twice = 0;
  for (let at = 0; at + 1 < ring!.length; at += 1) {
    twice += ring![at]![0]! * ring![at + 1]![1]! - ring![at + 1]![0]! * ring![at]![1]!;
  }
  return [twice < 0 ? [...ring!].reverse() : ring!];
}
