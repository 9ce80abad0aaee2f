import Flatbush from "flatbush";
import { toPlane } from "../../plane/plane.ts";
import type { StreetLines } from "./street-lines.ts";

/** Streets as edges between the vertices of their lines, in meters of one plane; lines that share a vertex are joined there. */
export interface StreetNet {
  readonly xM: readonly number[];
  readonly yM: readonly number[];
  readonly from: readonly number[];
  readonly to: readonly number[];
  readonly lengthM: readonly number[];
  /** The street of each edge. */
  readonly streetOf: readonly string[];
  /** Edges at each vertex. */
  readonly edgesAt: readonly (readonly number[])[];
  /** Boxes of the edges. */
  readonly index: Flatbush;
}

/** Bounds in degrees. */
export interface Bounds {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** The net of the streets whose lines touch the bounds, in a plane; null where there is none. Vertices 1e-7 degrees (11 mm) apart are one. */
export function streetNet({ lines, index }: StreetLines, plane: number, bounds: Bounds): StreetNet | null {
  const near = index?.search(bounds.west, bounds.south, bounds.east, bounds.north).sort((a, b) => a - b) ?? [];
  const vertexAt = new Map<string, number>();
  const [xM, yM]: [number[], number[]] = [[], []];
  const edgesAt: number[][] = [];
  const [from, to, lengthM, streetOf]: [number[], number[], number[], string[]] = [[], [], [], []];
  const vertexOf = (lonDeg: number, latDeg: number): number => {
    const key = `${lonDeg.toFixed(7)} ${latDeg.toFixed(7)}`;
    const known = vertexAt.get(key);
    if (known !== undefined) return known;
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    xM.push(x);
    yM.push(y);
    edgesAt.push([]);
    vertexAt.set(key, xM.length - 1);
    return xM.length - 1;
  };
  for (const at of near) {
    const { street, points } = lines[at]!;
    let last = vertexOf(points[0]![0]!, points[0]![1]!);
    for (const [lonDeg, latDeg] of points.slice(1)) {
      const next = vertexOf(lonDeg!, latDeg!);
      if (next === last) continue;
      edgesAt[last]!.push(from.length);
      edgesAt[next]!.push(from.length);
      from.push(last);
      to.push(next);
      lengthM.push(Math.sqrt((xM[last]! - xM[next]!) ** 2 + (yM[last]! - yM[next]!) ** 2));
      streetOf.push(street);
      last = next;
    }
  }
  if (from.length === 0) return null;
  const boxes = new Flatbush(from.length);
  from.forEach((a, edge) => {
    const b = to[edge]!;
    boxes.add(Math.min(xM[a]!, xM[b]!), Math.min(yM[a]!, yM[b]!), Math.max(xM[a]!, xM[b]!), Math.max(yM[a]!, yM[b]!));
  });
  boxes.finish();
  return { xM, yM, from, to, lengthM, streetOf, edgesAt, index: boxes };
}
