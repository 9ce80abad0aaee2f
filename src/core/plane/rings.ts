import { squaredToSegment } from "./segments.ts";

/**
 * Packed shapes of one plane: vertices `xy[2 * i]`, `xy[2 * i + 1]` in meters; part `p` is the vertices `starts[p]` up to but not including
 * `starts[p + 1]`. A ring repeats its first vertex at its end, as GeoJSON does.
 */
export interface PackedParts {
  readonly xy: Float64Array;
  readonly starts: Uint32Array;
}

/** Whether p is inside the ring of vertices `from` up to but not including `to`, by ray casting; on its edge either answer. */
export function isInRing(xy: Float64Array, from: number, to: number, px: number, py: number): boolean {
  let inside = false;
  for (let at = from; at + 1 < to; at += 1) {
    const ay = xy[2 * at + 1]!;
    const by = xy[2 * at + 3]!;
    if (ay > py === by > py) continue;
    const ax = xy[2 * at]!;
    const x = ax + ((py - ay) / (by - ay)) * (xy[2 * at + 2]! - ax);
    if (px < x) inside = !inside;
  }
  return inside;
}

/**
 * Whether p is inside an area of several rings, by the even-odd rule over all of them: holes are out, the parts of a multipolygon in.
 * Where two parts of one area overlap against the format's rules, the overlap counts as out.
 */
export function isInRings(parts: PackedParts, firstPart: number, endPart: number, px: number, py: number): boolean {
  let inside = false;
  for (let part = firstPart; part < endPart; part += 1) {
    if (isInRing(parts.xy, parts.starts[part]!, parts.starts[part + 1]!, px, py)) inside = !inside;
  }
  return inside;
}

/** Squared distance from p to the nearest of the lines of vertices `from` to `to`; Infinity for fewer than one vertex. */
export function squaredToLine(xy: Float64Array, from: number, to: number, px: number, py: number): number {
  if (to - from === 1) return (xy[2 * from]! - px) ** 2 + (xy[2 * from + 1]! - py) ** 2;
  let least = Number.POSITIVE_INFINITY;
  for (let at = from; at + 1 < to; at += 1) {
    const squared = squaredToSegment(px, py, xy[2 * at]!, xy[2 * at + 1]!, xy[2 * at + 2]!, xy[2 * at + 3]!);
    if (squared < least) least = squared;
  }
  return least;
}
