/** A point of the town in meters: x toward the upper end of Commerce Street, y to its left. */
export type Point = readonly [number, number];
export type Line = readonly Point[];

export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
export const along = (from: Point, direction: Point, lengthM: number): Point => [
  from[0] + direction[0] * lengthM,
  from[1] + direction[1] * lengthM,
];
/** The direction a quarter turn to the right. */
export const rightOf = (direction: Point): Point => [direction[1], -direction[0]];

export function direction(from: Point, to: Point): Point {
  const lengthM = distance(from, to);
  return [(to[0] - from[0]) / lengthM, (to[1] - from[1]) / lengthM];
}

export function lengthOf(line: Line): number {
  let total = 0;
  for (let at = 1; at < line.length; at += 1) total += distance(line[at - 1]!, line[at]!);
  return total;
}

/** The point at a length along a line and the direction of travel there; clamped to the ends. */
export function stationOn(line: Line, lengthM: number): { at: Point; heading: Point } {
  let left = Math.max(0, lengthM);
  for (let index = 1; index < line.length; index += 1) {
    const from = line[index - 1]!;
    const to = line[index]!;
    const stepM = distance(from, to);
    if (left <= stepM || index === line.length - 1) {
      const heading = direction(from, to);
      return { at: along(from, heading, Math.min(left, stepM)), heading };
    }
    left -= stepM;
  }
  throw new RangeError(`Expected a line of two points or more, got ${line.length}`);
}

/** Shortest distance in meters from a point to a line. */
export function distanceToLine(point: Point, line: Line): number {
  let best = Number.POSITIVE_INFINITY;
  for (let at = 1; at < line.length; at += 1) best = Math.min(best, distanceToSegment(point, line[at - 1]!, line[at]!));
  return best;
}

function distanceToSegment(point: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const share = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / (dx * dx + dy * dy);
  const held = Math.min(1, Math.max(0, share));
  return Math.hypot(point[0] - a[0] - held * dx, point[1] - a[1] - held * dy);
}

/** Where two segments cross or touch, as shares along each; null when they do not. Parallel ones never do. */
export function crossing(a: Point, b: Point, c: Point, d: Point): { onFirst: number; onSecond: number } | null {
  const turn = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
  if (Math.abs(turn) < 1e-9) return null;
  const onFirst = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / turn;
  const onSecond = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / turn;
  const slack = 1e-6;
  const isHit = onFirst > -slack && onFirst < 1 + slack && onSecond > -slack && onSecond < 1 + slack;
  return isHit ? { onFirst, onSecond } : null;
}

/** A smooth curve through points (centripetal would be finer; uniform Catmull-Rom is enough for streets), a vertex about every `stepM`. */
export function curve(through: Line, stepM = 9): Line {
  const line: Point[] = [through[0]!];
  for (let at = 0; at + 1 < through.length; at += 1) {
    const b = through[at]!;
    const c = through[at + 1]!;
    const a = through[at - 1] ?? [2 * b[0] - c[0], 2 * b[1] - c[1]];
    const d = through[at + 2] ?? [2 * c[0] - b[0], 2 * c[1] - b[1]];
    const steps = Math.max(1, Math.round(distance(b, c) / stepM));
    for (let step = 1; step <= steps; step += 1) {
      const t = step / steps;
      const blend = (axis: 0 | 1): number =>
        0.5 *
        (2 * b[axis] +
          (c[axis] - a[axis]) * t +
          (2 * a[axis] - 5 * b[axis] + 4 * c[axis] - d[axis]) * t * t +
          (3 * b[axis] - a[axis] - 3 * c[axis] + d[axis]) * t * t * t);
      line.push(step === steps ? c : [blend(0), blend(1)]);
    }
  }
  return line;
}

/** The line moved sideways, to the right when positive, with its inner corners mitered. */
export function sideLine(line: Line, offsetM: number): Line {
  return line.map((point, at) => {
    const before = at > 0 ? direction(line[at - 1]!, point) : direction(point, line[1]!);
    const after = at + 1 < line.length ? direction(point, line[at + 1]!) : before;
    const cosHalf = Math.sqrt(Math.max(0.2, (1 + before[0] * after[0] + before[1] * after[1]) / 2));
    const mean = direction([0, 0], [before[0] + after[0], before[1] + after[1]]);
    return along(point, rightOf(mean), offsetM / cosHalf);
  });
}

/** The line without the vertices that lie within `toleranceM` of the rest (Douglas and Peucker 1973). */
export function thinned(line: Line, toleranceM: number): Line {
  if (line.length < 3) return line;
  const first = line[0]!;
  const last = line[line.length - 1]!;
  let far = 0;
  let farM = toleranceM;
  for (let at = 1; at < line.length - 1; at += 1) {
    const offM = distanceToLine(line[at]!, [first, last]);
    if (offM > farM) [far, farM] = [at, offM];
  }
  if (far === 0) return [first, last];
  return [...thinned(line.slice(0, far + 1), toleranceM).slice(0, -1), ...thinned(line.slice(far), toleranceM)];
}

/** Whether a point is inside a ring (even-odd rule); the ring may be open or closed. */
export function isInside(point: Point, ring: Line): boolean {
  let isIn = false;
  for (let at = 0, last = ring.length - 1; at < ring.length; last = at, at += 1) {
    const [ax, ay] = ring[at]!;
    const [bx, by] = ring[last]!;
    if (ay > point[1] !== by > point[1] && point[0] < ((bx - ax) * (point[1] - ay)) / (by - ay) + ax) isIn = !isIn;
  }
  return isIn;
}
