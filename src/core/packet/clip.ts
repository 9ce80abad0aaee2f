export type XY = readonly [x: number, y: number];

/** An upright rectangle on the paper. */
export interface Frame {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The part of a polygon's ring inside a frame (Sutherland and Hodgman 1974); empty when nothing is. A concave ring may keep seams on the frame. */
export function clipRing(ring: readonly XY[], frame: Frame): XY[] {
  let points: XY[] = [...ring];
  for (const { inside, cross } of edgesOf(frame)) {
    const kept: XY[] = [];
    points.forEach((point, at) => {
      const before = points[(at + points.length - 1) % points.length]!;
      if (inside(point) !== inside(before)) kept.push(cross(before, point));
      if (inside(point)) kept.push(point);
    });
    points = kept;
  }
  return points;
}

/** The parts of a line inside a frame, in order (Liang and Barsky 1984 for each step). */
export function clipLine(points: readonly XY[], frame: Frame): XY[][] {
  const parts: XY[][] = [];
  for (let at = 1; at < points.length; at += 1) {
    const step = clipStep(points[at - 1]!, points[at]!, frame);
    if (step === null) continue;
    const last = parts.at(-1);
    const end = last?.at(-1);
    if (last !== undefined && end !== undefined && end[0] === step[0][0] && end[1] === step[0][1]) last.push(step[1]);
    else parts.push([step[0], step[1]]);
  }
  return parts;
}

function clipStep(from: XY, to: XY, { left, top, right, bottom }: Frame): readonly [XY, XY] | null {
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  let enter = 0;
  let leave = 1;
  for (const [p, q] of [
    [-dx, from[0] - left],
    [dx, right - from[0]],
    [-dy, from[1] - top],
    [dy, bottom - from[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return null;
    } else if (p < 0) enter = Math.max(enter, q / p);
    else leave = Math.min(leave, q / p);
  }
  if (enter > leave) return null;
  const at = (share: number): XY => [from[0] + dx * share, from[1] + dy * share];
  return [enter === 0 ? from : at(enter), leave === 1 ? to : at(leave)];
}

function edgesOf({ left, top, right, bottom }: Frame) {
  const vertical =
    (x: number) =>
    (a: XY, b: XY): XY => [x, a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0])];
  const horizontal =
    (y: number) =>
    (a: XY, b: XY): XY => [a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]), y];
  return [
    { inside: (point: XY) => point[0] >= left, cross: vertical(left) },
    { inside: (point: XY) => point[0] <= right, cross: vertical(right) },
    { inside: (point: XY) => point[1] >= top, cross: horizontal(top) },
    { inside: (point: XY) => point[1] <= bottom, cross: horizontal(bottom) },
  ];
}
