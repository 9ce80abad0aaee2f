import type { PlanePoint } from "./plane-point.ts";
import { pointAlong } from "./point-along.ts";

/** Length of a line in meters. */
export function lineLengthM(line: readonly PlanePoint[]): number {
  let sum = 0;
  for (let at = 0; at + 1 < line.length; at += 1) {
    sum += Math.hypot(line[at + 1]![0] - line[at]![0], line[at + 1]![1] - line[at]![1]);
  }
  return sum;
}

/** The part of a line between two lengths along it; past its end it goes on straight. */
export function lineStretch(line: readonly PlanePoint[], fromM: number, toM: number): PlanePoint[] {
  const points: PlanePoint[] = [pointAlong(line, fromM)];
  let doneM = 0;
  for (let at = 1; at < line.length; at += 1) {
    doneM += Math.hypot(line[at]![0] - line[at - 1]![0], line[at]![1] - line[at - 1]![1]);
    if (doneM > fromM && doneM < toM) points.push(line[at]!);
  }
  points.push(pointAlong(line, toM));
  return points;
}
