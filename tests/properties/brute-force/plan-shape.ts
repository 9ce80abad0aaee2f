export type Ring = readonly (readonly [number, number])[];

/** A thing in plan: polygons with their holes, or a line with half its width. */
export interface PlanShape {
  /** Each an outer ring and its holes, open, in meters. */
  readonly polygons: readonly (readonly Ring[])[];
  readonly line: Ring;
  readonly halfM: number;
}

/** Distance in meters between samples along boundaries, and across areas. */
export const EDGE_STEP_M = 0.04;
const AREA_STEP_M = 0.5;

/** A ring that never crosses itself: corners in the order of their angle, in either sense of turning. */
export function star(next: () => number, x: number, y: number, corners: number, leastM: number, mostM: number): Ring {
  const ring = Array.from({ length: corners }, (_, at): [number, number] => {
    const reachM = leastM + next() * (mostM - leastM);
    const angle = ((at + next() * 0.8) * 2 * Math.PI) / corners;
    return [x + Math.cos(angle) * reachM, y + Math.sin(angle) * reachM];
  });
  return next() < 0.5 ? ring : ring.reverse();
}

/** One to three polygons, some with a hole, each in a place of its own so that they do not overlap. */
export function randomAreas(next: () => number): PlanShape {
  const count = 1 + Math.floor(next() ** 2 * 3);
  const turn = next() * 2 * Math.PI;
  const polygons = Array.from({ length: count }, (_, at) => {
    // Centers 120 degrees apart; parts of at most 8 m about centers at least 14 m from each other.
    const awayM = count === 1 ? next() * 14 : 8.1 + next() * 4;
    const angle = turn + (at * 2 * Math.PI) / 3;
    const [x, y] = [Math.cos(angle) * awayM, Math.sin(angle) * awayM];
    const outer = star(next, x, y, 3 + Math.floor(next() * 12), 2.5, count === 1 ? 16 : 7);
    // A star of three corners can be slim at its middle: only those of many corners get a hole.
    return outer.length >= 8 && next() < 0.4 ? [outer, star(next, x, y, 5, 0.4, 0.7)] : [outer];
  });
  return { polygons, line: [], halfM: 0 };
}

/** A line of a few pieces that starts near the tree and wanders, with half its width. */
export function randomLine(next: () => number, mostHalfM: number): PlanShape {
  const line: [number, number][] = [[(next() - 0.5) * 30, (next() - 0.5) * 30]];
  for (let step = 1 + Math.floor(next() * 5); step > 0; step -= 1) {
    const [x, y] = line[line.length - 1]!;
    line.push([x + (next() - 0.5) * 24, y + (next() - 0.5) * 24]);
  }
  return { polygons: [], line, halfM: 0.6 + next() * (mostHalfM - 0.6) };
}

/** Whether a point is in the shape: in a polygon and in none of its holes, or within half the width of the line. */
export function isIn(shape: PlanShape, x: number, y: number): boolean {
  if (shape.line.length > 0) return toEdges([shape.line], false, x, y) <= shape.halfM;
  return shape.polygons.some((rings) => rings.reduce((odd, ring) => odd !== isInRing(ring, x, y), false));
}

/** Distance in meters to the boundary of the areas, or to the middle of the line. */
export const toBoundary = (shape: PlanShape, x: number, y: number): number =>
  shape.line.length > 0 ? toEdges([shape.line], false, x, y) : toEdges(shape.polygons.flat(), true, x, y);

/** Points of the shape: all along its boundary, a coarse grid over it, and `point` itself where it is in it. */
export function samplesOf(shape: PlanShape, point: readonly [number, number]): [number, number][] {
  const samples: [number, number][] = isIn(shape, ...point) ? [[point[0], point[1]]] : [];
  const edges: (readonly [readonly [number, number], readonly [number, number]])[] = [];
  for (const ring of shape.polygons.flat())
    for (let at = 0; at < ring.length; at += 1) edges.push([ring[at]!, ring[(at + 1) % ring.length]!]);
  for (let at = 1; at < shape.line.length; at += 1) {
    const [from, to] = [shape.line[at - 1]!, shape.line[at]!];
    const angle = Math.atan2(to[1] - from[1], to[0] - from[0]);
    const [nx, ny] = [-Math.sin(angle) * shape.halfM, Math.cos(angle) * shape.halfM];
    for (const side of [1, -1]) {
      edges.push([
        [from[0] + side * nx, from[1] + side * ny],
        [to[0] + side * nx, to[1] + side * ny],
      ]);
    }
    const around = Math.ceil((2 * Math.PI * shape.halfM) / EDGE_STEP_M);
    for (const [x, y] of [from, to]) {
      for (let step = 0; step < around; step += 1) {
        const turn = (2 * Math.PI * step) / around;
        samples.push([x + Math.cos(turn) * shape.halfM, y + Math.sin(turn) * shape.halfM]);
      }
    }
  }
  for (const [from, to] of edges) {
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / EDGE_STEP_M));
    for (let step = 0; step <= steps; step += 1) {
      const t = step / steps;
      samples.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
    }
  }
  for (let x = -12; x <= 12; x += AREA_STEP_M) {
    for (let y = -12; y <= 12; y += AREA_STEP_M) {
      if (isIn(shape, point[0] + x, point[1] + y)) samples.push([point[0] + x, point[1] + y]);
    }
  }
  return samples;
}

function isInRing(ring: Ring, x: number, y: number): boolean {
  let odd = false;
  for (let at = 0; at < ring.length; at += 1) {
    const [ax, ay] = ring[at]!;
    const [bx, by] = ring[(at + 1) % ring.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  }
  return odd;
}

function toEdges(rings: readonly Ring[], isClosed: boolean, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const ring of rings) {
    for (let at = isClosed ? 0 : 1; at < ring.length; at += 1) {
      const [ax, ay] = ring[(at + ring.length - 1) % ring.length]!;
      const [bx, by] = ring[at]!;
      const squared = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = squared === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / squared));
      least = Math.min(least, Math.hypot(ax + t * (bx - ax) - x, ay + t * (by - ay) - y));
    }
  }
  return least;
}
