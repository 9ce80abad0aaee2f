/** Share along the segment a-b, 0 to 1, of its point nearest to p; 0 for a segment of no length. */
export function nearestShare(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  if (squared === 0) return 0;
  const share = ((px - ax) * dx + (py - ay) * dy) / squared;
  return Math.max(0, Math.min(1, share));
}

/** Squared distance from p to the segment a-b, in square meters where the inputs are meters. */
export function squaredToSegment(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const share = nearestShare(px, py, ax, ay, bx, by);
  const dx = ax + share * (bx - ax) - px;
  const dy = ay + share * (by - ay) - py;
  return dx * dx + dy * dy;
}

/**
 * Share along the segment a-b, 0 to 1, where it meets the segment c-d; NaN when they do not meet or are parallel. Touching ends count.
 */
export function crossingShare(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): number {
  const ux = bx - ax;
  const uy = by - ay;
  const vx = dx - cx;
  const vy = dy - cy;
  const cross = ux * vy - uy * vx;
  if (cross === 0) return Number.NaN;
  const along = ((cx - ax) * vy - (cy - ay) * vx) / cross;
  const across = ((cx - ax) * uy - (cy - ay) * ux) / cross;
  return along >= 0 && along <= 1 && across >= 0 && across <= 1 ? along : Number.NaN;
}

/**
 * Distance along a ray from p in the unit direction (ux, uy) to the segment a-b; Infinity when it misses or runs along it. A vertex is
 * counted to one side only, so that a ray through it is counted once or twice, never by chance.
 */
export function rayToSegment(
  px: number,
  py: number,
  ux: number,
  uy: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  // Signed distances of the ends from the ray's line; half-open, as in ray casting.
  const sideA = ux * (ay - py) - uy * (ax - px);
  const sideB = ux * (by - py) - uy * (bx - px);
  if (sideA > 0 === sideB > 0) return Number.POSITIVE_INFINITY;
  const share = sideA / (sideA - sideB);
  const along = ux * (ax + share * (bx - ax) - px) + uy * (ay + share * (by - ay) - py);
  return along >= 0 ? along : Number.POSITIVE_INFINITY;
}
