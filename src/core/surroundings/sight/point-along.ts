import type { PlanePoint } from "./plane-point.ts";

/** The point a length in meters along a line; past its end the last segment goes on straight. */
export function pointAlong(line: readonly PlanePoint[], lengthM: number): PlanePoint {
  let doneM = 0;
  for (let at = 0; at + 1 < line.length; at += 1) {
    const [ax, ay] = line[at]!;
    const [bx, by] = line[at + 1]!;
    const stepM = Math.hypot(bx - ax, by - ay);
    if (stepM > 0 && (doneM + stepM >= lengthM || at + 2 === line.length)) {
      const share = (lengthM - doneM) / stepM;
      return [ax + share * (bx - ax), ay + share * (by - ay)];
    }
    doneM += stepM;
  }
  return line[line.length - 1]!;
}
