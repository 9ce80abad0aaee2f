import type { PlanePoint } from "./plane-point.ts";

/** Least squared length of a half sum of normals: the miter of a bend of 120 degrees is twice the offset; sharper ones are cut there. */
const LEAST_SQUARED = 0.25;

/** A line moved sideways by `leftM` meters (negative: to the right), its corners mitered. */
export function offsetLine(line: readonly PlanePoint[], leftM: number): PlanePoint[] {
  return line.map(([x, y], at) => {
    const before = line[Math.max(0, at - 1)]!;
    const after = line[Math.min(line.length - 1, at + 1)]!;
    const [inX, inY] = unit(at === 0 ? [x, y] : before, at === 0 ? after : [x, y]);
    const [outX, outY] = unit(at === line.length - 1 ? before : [x, y], at === line.length - 1 ? [x, y] : after);
    const [nx, ny] = [-(inY + outY) / 2, (inX + outX) / 2];
    const squared = Math.max(LEAST_SQUARED, nx * nx + ny * ny);
    return [x + (leftM * nx) / squared, y + (leftM * ny) / squared];
  });
}

function unit([ax, ay]: PlanePoint, [bx, by]: PlanePoint): PlanePoint {
  const lengthM = Math.hypot(bx - ax, by - ay);
  return lengthM > 0 ? [(bx - ax) / lengthM, (by - ay) / lengthM] : [0, 0];
}
