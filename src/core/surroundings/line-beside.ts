import type { Position } from "geojson";
import { planeOf, toLonLat, toPlane } from "../plane/plane.ts";

/** Bends sharper than this share of a half turn are cut off by two points in place of one far out. */
const LEAST_COSINE = 0.5;

/**
 * A line beside a line, `offsetM` meters to its left as one looks along it, to its right where negative, in longitude and latitude; with
 * mitered corners. Empty for a line of no length.
 *
 * Where the line bends more tightly than the offset the result crosses itself: nothing is cut away.
 */
export function lineBeside(line: readonly Position[], offsetM: number): Position[] {
  const first = line[0];
  if (first === undefined) return [];
  const plane = planeOf(first[0]!);
  const points: (readonly [number, number])[] = [];
  for (const position of line) {
    const point = toPlane(plane, position[0]!, position[1]!);
    const last = points[points.length - 1];
    if (last === undefined || last[0] !== point[0] || last[1] !== point[1]) points.push(point);
  }
  if (points.length < 2) return [];
  const normals = points.slice(1).map((to, at) => normalOf(points[at]!, to));
  const beside: Position[] = [];
  const add = (at: number, [x, y]: readonly [number, number], byM: number): void => {
    const [lonDeg, latDeg] = toLonLat(plane, points[at]![0] + x * byM, points[at]![1] + y * byM);
    beside.push([lonDeg, latDeg]);
  };
  add(0, normals[0]!, offsetM);
  for (let at = 1; at + 1 < points.length; at += 1) {
    const before = normals[at - 1]!;
    const after = normals[at]!;
    const middle: [number, number] = [before[0] + after[0], before[1] + after[1]];
    // Half the sum of two unit vectors is as long as the cosine of half the angle between them.
    const cosine = Math.hypot(...middle) / 2;
    if (cosine < LEAST_COSINE) {
      add(at, before, offsetM);
      add(at, after, offsetM);
    } else add(at, [middle[0] / (2 * cosine), middle[1] / (2 * cosine)], offsetM / cosine);
  }
  add(points.length - 1, normals[normals.length - 1]!, offsetM);
  return beside;
}

/** The unit vector to the left of a step. */
function normalOf([ax, ay]: readonly [number, number], [bx, by]: readonly [number, number]): readonly [number, number] {
  const lengthM = Math.hypot(bx - ax, by - ay);
  return [-(by - ay) / lengthM, (bx - ax) / lengthM];
}
