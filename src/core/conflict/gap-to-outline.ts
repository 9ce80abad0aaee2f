import { RAY_COUNT } from "../model/conflict.ts";
import type { Neighborhood } from "../plane/neighborhood.ts";
import { crossingShare, nearestShare, squaredToSegment } from "../plane/segments.ts";
import type { CrownSize } from "./crown-size.ts";
import { rayEast, rayNorth } from "./removal-region.ts";

/** The points a gap lies between, relative to the trunk in meters: on the thing and on the crown. */
export interface Between {
  thingXM: number;
  thingYM: number;
  crownXM: number;
  crownYM: number;
}

export const emptyBetween = (): Between => ({ thingXM: 0, thingYM: 0, crownXM: 0, crownYM: 0 });

/**
 * Horizontal gap in meters between the loaded area's boundary and a crown's outline of unequal radii; where the outline passes the boundary,
 * how deep it does so at most, negative. Infinity when no boundary is near.
 *
 * The outline is taken as a polygon of 120 corners, even in the angle of the circle that the ellipses are stretched from, so that a narrow one
 * keeps its tip: at most 0.034 % of the largest radius inside the true one. The trunk is taken to be outside. The points it is
 * measured between are written into `between`, if given.
 */
export function gapToOutlineM(around: Neighborhood, size: CrownSize, between: Between | null = null): number {
  const { segments } = around;
  let deepest = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const next = (ray + 1) % RAY_COUNT;
    const [ax, ay] = [cornerXM(size, ray), cornerYM(size, ray)];
    const [bx, by] = [cornerXM(size, next), cornerYM(size, next)];
    let toBoundary = Number.POSITIVE_INFINITY;
    let boundaryAt = 0;
    let crossings = 0;
    for (let at = 0; at < 4 * around.segmentCount; at += 4) {
      const [cx, cy, dx, dy] = [segments[at]!, segments[at + 1]!, segments[at + 2]!, segments[at + 3]!];
      const squared = squaredToSegment(ax, ay, cx, cy, dx, dy);
      if (squared < toBoundary) {
        toBoundary = squared;
        boundaryAt = at;
      }
      // From the trunk, which is outside, to the corner: an odd number of crossings puts the corner inside.
      if (!Number.isNaN(crossingShare(0, 0, ax, ay, cx, cy, dx, dy))) crossings += 1;
      if (deepest > 0) continue;
      const toSide = squaredToSegment(cx, cy, ax, ay, bx, by);
      if (toSide < nearest) {
        nearest = toSide;
        const share = nearestShare(cx, cy, ax, ay, bx, by);
        write(between, cx, cy, ax + share * (bx - ax), ay + share * (by - ay));
      }
      const crossed = crossingShare(ax, ay, bx, by, cx, cy, dx, dy);
      if (!Number.isNaN(crossed)) {
        nearest = 0;
        const [x, y] = [ax + crossed * (bx - ax), ay + crossed * (by - ay)];
        write(between, x, y, x, y);
      }
    }
    const isDeeper = crossings % 2 === 1 && toBoundary > deepest;
    if (isDeeper || (deepest === 0 && toBoundary < nearest)) {
      const [cx, cy] = [segments[boundaryAt]!, segments[boundaryAt + 1]!];
      const [dx, dy] = [segments[boundaryAt + 2]!, segments[boundaryAt + 3]!];
      const share = nearestShare(ax, ay, cx, cy, dx, dy);
      write(between, cx + share * (dx - cx), cy + share * (dy - cy), ax, ay);
    }
    if (isDeeper) deepest = toBoundary;
    nearest = Math.min(nearest, toBoundary);
  }
  return deepest > 0 ? -Math.sqrt(deepest) : Math.sqrt(nearest);
}

/** A corner of the outline; the trunk in a quadrant that has no crown. */
const cornerXM = (size: CrownSize, ray: number): number =>
  hasCrown(size, ray) ? rayEast(ray) * (rayEast(ray) >= 0 ? size.eastM : size.westM) : 0;
const cornerYM = (size: CrownSize, ray: number): number =>
  hasCrown(size, ray) ? rayNorth(ray) * (rayNorth(ray) >= 0 ? size.northM : size.southM) : 0;
const hasCrown = (size: CrownSize, ray: number): boolean =>
  (rayEast(ray) >= 0 ? size.eastM : size.westM) > 0 && (rayNorth(ray) >= 0 ? size.northM : size.southM) > 0;

function write(between: Between | null, thingXM: number, thingYM: number, crownXM: number, crownYM: number): void {
  if (between === null) return;
  between.thingXM = thingXM;
  between.thingYM = thingYM;
  between.crownXM = crownXM;
  between.crownYM = crownYM;
}
