import { RAY_COUNT } from "../model/conflict.ts";
import type { Neighborhood } from "../plane/neighborhood.ts";
import { crossingShare, squaredToSegment } from "../plane/segments.ts";
import { type CrownSize, radiusAlong } from "./crown-size.ts";
import { rayEast, rayNorth } from "./removal-region.ts";

/**
 * Horizontal gap in meters between the loaded area's boundary and a crown's outline of unequal radii; where the outline passes the boundary,
 * how deep it does so at most, negative. Infinity when no boundary is near.
 *
 * The outline is taken as a polygon of 120 corners, at most 0.034 % of the radius inside the true one. The trunk is taken to be outside.
 */
export function gapToOutlineM(around: Neighborhood, size: CrownSize): number {
  const { segments } = around;
  let deepest = 0;
  let nearest = Number.POSITIVE_INFINITY;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const next = (ray + 1) % RAY_COUNT;
    const radiusM = radiusAlong(size, rayEast(ray), rayNorth(ray));
    const nextM = radiusAlong(size, rayEast(next), rayNorth(next));
    const [ax, ay] = [rayEast(ray) * radiusM, rayNorth(ray) * radiusM];
    const [bx, by] = [rayEast(next) * nextM, rayNorth(next) * nextM];
    let toBoundary = Number.POSITIVE_INFINITY;
    let crossings = 0;
    for (let at = 0; at < 4 * around.segmentCount; at += 4) {
      const [cx, cy, dx, dy] = [segments[at]!, segments[at + 1]!, segments[at + 2]!, segments[at + 3]!];
      toBoundary = Math.min(toBoundary, squaredToSegment(ax, ay, cx, cy, dx, dy));
      // From the trunk, which is outside, to the corner: an odd number of crossings puts the corner inside.
      if (!Number.isNaN(crossingShare(0, 0, ax, ay, cx, cy, dx, dy))) crossings += 1;
      nearest = Math.min(
        nearest,
        squaredToSegment(cx, cy, ax, ay, bx, by),
        Number.isNaN(crossingShare(ax, ay, bx, by, cx, cy, dx, dy)) ? Number.POSITIVE_INFINITY : 0,
      );
    }
    nearest = Math.min(nearest, toBoundary);
    if (crossings % 2 === 1) deepest = Math.max(deepest, toBoundary);
  }
  return deepest > 0 ? -Math.sqrt(deepest) : Math.sqrt(nearest);
}
