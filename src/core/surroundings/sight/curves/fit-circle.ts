import type { PlanePoint } from "../plane-point.ts";

export interface Circle {
  readonly xM: number;
  readonly yM: number;
  readonly radiusM: number;
  /** Root of the mean squared distance of the points from the circle, meters. */
  readonly errorM: number;
}

/** Steps of Newton's method; it starts below the least root and converges in a few. */
const NEWTON_STEPS = 30;

/**
 * The circle through some points as Taubin's algebraic fit gives it (G. Taubin 1991, IEEE Transactions on Pattern Analysis and Machine
 * Intelligence 13(11); computed by Newton's method as in N. Chernov, Circular and Linear Regression, 2010). On a short arc with noise it does
 * not shrink the radius as the simple least squares of Kasa do. Null for fewer than three points, and for points on a line.
 */
export function fitCircle(points: readonly PlanePoint[]): Circle | null {
  const count = points.length;
  if (count < 3) return null;
  const middleX = points.reduce((sum, [x]) => sum + x, 0) / count;
  const middleY = points.reduce((sum, [, y]) => sum + y, 0) / count;
  let [xx, yy, xy, xz, yz, zz] = [0, 0, 0, 0, 0, 0];
  for (const [px, py] of points) {
    const x = px - middleX;
    const y = py - middleY;
    const z = x * x + y * y;
    xx += x * x;
    yy += y * y;
    xy += x * y;
    xz += x * z;
    yz += y * z;
    zz += z * z;
  }
  xx /= count;
  yy /= count;
  xy /= count;
  xz /= count;
  yz /= count;
  zz /= count;
  const z = xx + yy;
  const determinant = xx * yy - xy * xy;
  // Chernov's coefficients of the characteristic polynomial.
  const a3 = 4 * z;
  const a2 = -3 * z * z - zz;
  const a1 = zz * z + 4 * determinant * z - xz * xz - yz * yz - z * z * z;
  const a0 = xz * xz * yy + yz * yz * xx - zz * determinant - 2 * xz * yz * xy + z * z * determinant;
  let root = 0;
  for (let step = 0; step < NEWTON_STEPS; step += 1) {
    const value = a0 + root * (a1 + root * (a2 + root * a3));
    const slope = a1 + root * (2 * a2 + 3 * a3 * root);
    const next = slope === 0 ? root : root - value / slope;
    if (!(next > root) || !Number.isFinite(next)) break;
    root = next;
  }
  const scale = root * root - root * z + determinant;
  if (!(Math.abs(scale) > 1e-12 * z * z)) return null;
  const x = (xz * (yy - root) - yz * xy) / scale / 2;
  const y = (yz * (xx - root) - xz * xy) / scale / 2;
  const radiusM = Math.sqrt(x * x + y * y + z);
  const squared = points.reduce(
    (sum, [px, py]) => sum + (Math.hypot(px - middleX - x, py - middleY - y) - radiusM) ** 2,
    0,
  );
  return { xM: middleX + x, yM: middleY + y, radiusM, errorM: Math.sqrt(squared / count) };
}
