import { RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../model/conflict.ts";
import type { Neighborhood } from "../plane/neighborhood.ts";
import { nearestShare, rayToSegment } from "../plane/segments.ts";

/** Unit directions of the rays, east and north. */
const EAST = Float64Array.from({ length: RAY_COUNT }, (_, ray) =>
  Math.sin(((ray + 0.5) * RAY_STEP_DEG * Math.PI) / 180),
);
const NORTH = Float64Array.from({ length: RAY_COUNT }, (_, ray) =>
  Math.cos(((ray + 0.5) * RAY_STEP_DEG * Math.PI) / 180),
);

export const rayEast = (ray: number): number => EAST[ray]!;
export const rayNorth = (ray: number): number => NORTH[ray]!;

/** A region that no ray meets. */
export function emptyRegion(lowM: number, highM: number): RemovalRegion {
  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  return { fromM, toM: new Float64Array(RAY_COUNT), lowM, highM };
}

/** What is over the loaded area: each ray from its first entry to its last exit, at least `axisM` from the trunk axis, at most `farM`. */
export function overArea(
  around: Neighborhood,
  axisM: number,
  farM: number,
  lowM: number,
  highM: number,
): RemovalRegion {
  const region = emptyRegion(lowM, highM);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    let first = around.isInside ? 0 : Number.POSITIVE_INFINITY;
    let last = 0;
    let isInAtFar = around.isInside;
    for (let at = 0; at < 4 * around.segmentCount; at += 4) {
      const alongM = hit(around.segments, at, EAST[ray]!, NORTH[ray]!);
      if (alongM > farM) continue;
      isInAtFar = !isInAtFar;
      if (alongM < first) first = alongM;
      if (alongM > last) last = alongM;
    }
    keep(region, ray, first, isInAtFar ? farM : last, axisM);
  }
  return region;
}

/** What is over the loaded line widened by `halfWidthM` to each side, as {@link overArea}. */
export function overWidened(
  around: Neighborhood,
  halfWidthM: number,
  axisM: number,
  farM: number,
  lowM: number,
  highM: number,
): RemovalRegion {
  const region = emptyRegion(lowM, highM);
  const span = new Float64Array(2);
  const frames = segmentFrames(around);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    let first = Number.POSITIVE_INFINITY;
    let last = 0;
    for (let at = 0; at < 4 * around.segmentCount; at += 4) {
      if (!throughCapsule(span, around.segments, frames, at, halfWidthM, EAST[ray]!, NORTH[ray]!) || span[0]! > farM)
        continue;
      first = Math.min(first, span[0]!);
      last = Math.max(last, span[1]!);
    }
    keep(region, ray, first, Math.min(last, farM), axisM);
  }
  return region;
}

/**
 * What is nearer than `offsetM` to the loaded boundary, or beyond it, or inside it: for walls (`isSolid`, to where the building and its offset end) and
 * for conductors (everything beyond). Where the trunk itself is that near, only the rays toward the boundary count, so that a region never
 * crosses the trunk's axis.
 */
export function beyondOffset(
  around: Neighborhood,
  offsetM: number,
  isSolid: boolean,
  axisM: number,
  farM: number,
  lowM: number,
  highM: number,
): RemovalRegion {
  const region = emptyRegion(lowM, highM);
  const span = new Float64Array(2);
  const frames = segmentFrames(around);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const east = EAST[ray]!;
    const north = NORTH[ray]!;
    let first = around.isInside ? 0 : Number.POSITIVE_INFINITY;
    let last = 0;
    let isInAtFar = around.isInside;
    for (let at = 0; at < 4 * around.segmentCount; at += 4) {
      const { segments } = around;
      if (isSolid && hit(segments, at, east, north) <= farM) isInAtFar = !isInAtFar;
      if (!throughCapsule(span, segments, frames, at, offsetM, east, north) || span[0]! > farM) continue;
      if (span[0]! <= 0 && !isToward(segments, at, east, north)) continue;
      first = Math.min(first, span[0]!);
      last = Math.max(last, span[1]!);
    }
    keep(region, ray, first, isSolid && !isInAtFar ? Math.min(last, farM) : farM, axisM);
  }
  return region;
}

/** What lies behind the loaded outline as seen from the trunk: on each ray from its first meeting with it, between two heights. */
export function behindOutline(around: Neighborhood, farM: number, lowM: number, highM: number): RemovalRegion {
  const region = emptyRegion(lowM, highM);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    let first = around.isInside ? 0 : Number.POSITIVE_INFINITY;
    for (let at = 0; at < 4 * around.segmentCount; at += 4) {
      first = Math.min(first, hit(around.segments, at, EAST[ray]!, NORTH[ray]!));
    }
    if (first > farM) continue;
    region.fromM[ray] = first;
    region.toM[ray] = Number.POSITIVE_INFINITY;
  }
  return region;
}

function keep(region: RemovalRegion, ray: number, firstM: number, lastM: number, axisM: number): void {
  const fromM = Math.max(firstM, axisM);
  if (!(lastM > fromM)) return;
  region.fromM[ray] = fromM;
  region.toM[ray] = lastM;
}

function hit(segments: Float64Array, at: number, east: number, north: number): number {
  return rayToSegment(0, 0, east, north, segments[at]!, segments[at + 1]!, segments[at + 2]!, segments[at + 3]!);
}

function isToward(segments: Float64Array, at: number, east: number, north: number): boolean {
  const [ax, ay, bx, by] = [segments[at]!, segments[at + 1]!, segments[at + 2]!, segments[at + 3]!];
  const share = nearestShare(0, 0, ax, ay, bx, by);
  return (ax + share * (bx - ax)) * east + (ay + share * (by - ay)) * north > 0;
}

/** Length of each loaded segment in meters and its unit direction, at the same places as the segments; directions are 0 where there is no length. */
function segmentFrames({ segments, segmentCount }: Neighborhood): Float64Array {
  const frames = new Float64Array(4 * segmentCount);
  for (let at = 0; at < frames.length; at += 4) {
    const eastM = segments[at + 2]! - segments[at]!;
    const northM = segments[at + 3]! - segments[at + 1]!;
    const lengthM = Math.hypot(eastM, northM);
    if (!(lengthM > 0)) continue;
    frames[at] = lengthM;
    frames[at + 1] = eastM / lengthM;
    frames[at + 2] = northM / lengthM;
  }
  return frames;
}

/** Whether a ray from the origin meets the points within `radiusM` of a segment; writes entry (negative behind) and exit into `span`. */
function throughCapsule(
  span: Float64Array,
  segments: Float64Array,
  frames: Float64Array,
  at: number,
  radiusM: number,
  east: number,
  north: number,
): boolean {
  const ax = segments[at]!;
  const ay = segments[at + 1]!;
  const bx = segments[at + 2]!;
  const by = segments[at + 3]!;
  span[0] = Number.POSITIVE_INFINITY;
  span[1] = Number.NEGATIVE_INFINITY;
  throughDisc(span, ax, ay, radiusM, east, north);
  throughDisc(span, bx, by, radiusM, east, north);
  const lengthM = frames[at]!;
  if (lengthM > 0) {
    const ux = frames[at + 1]!;
    const uy = frames[at + 2]!;
    // In the segment's own frame: along it from 0 to its length, across it within the radius.
    const alongStart = -(ax * ux + ay * uy);
    const acrossStart = -(ay * ux - ax * uy);
    const alongStep = east * ux + north * uy;
    const acrossStep = north * ux - east * uy;
    let low = Number.NEGATIVE_INFINITY;
    let high = Number.POSITIVE_INFINITY;
    if (alongStep === 0) {
      if (alongStart < 0 || alongStart > lengthM) high = Number.NEGATIVE_INFINITY;
    } else {
      const one = -alongStart / alongStep;
      const other = (lengthM - alongStart) / alongStep;
      low = Math.max(low, Math.min(one, other));
      high = Math.min(high, Math.max(one, other));
    }
    if (acrossStep === 0) {
      if (Math.abs(acrossStart) > radiusM) high = Number.NEGATIVE_INFINITY;
    } else {
      const one = (-radiusM - acrossStart) / acrossStep;
      const other = (radiusM - acrossStart) / acrossStep;
      low = Math.max(low, Math.min(one, other));
      high = Math.min(high, Math.max(one, other));
    }
    if (low <= high) {
      span[0] = Math.min(span[0]!, low);
      span[1] = Math.max(span[1]!, high);
    }
  }
  return span[1]! > 0 && span[0]! <= span[1]!;
}

function throughDisc(span: Float64Array, cx: number, cy: number, radiusM: number, east: number, north: number): void {
  const along = cx * east + cy * north;
  const left = radiusM * radiusM - (cx * cx + cy * cy - along * along);
  if (left < 0) return;
  const half = Math.sqrt(left);
  span[0] = Math.min(span[0]!, along - half);
  span[1] = Math.max(span[1]!, along + half);
}
