import type { Leg } from "./find-intersections.ts";
import { laneToward, waitingOffsetM } from "./lanes.ts";
import type { PlanePoint } from "./plane-point.ts";
import { pointAlong } from "./point-along.ts";
import type { SeenLeg, SightScene } from "./scene.ts";
import { halfWidthOf, sideOf } from "./seen-legs.ts";

/** Least sine of the angle between the roads by which a skewed edge is moved out. Green Book: no flatter than about 60 degrees; we go to 30. */
const MIN_SINE = 0.5;

/**
 * How far in meters from the intersection along the driver's own leg the edge of the road it meets lies: half its width over the sine of the
 * angle. The widest of the roads that cross at the driver's own intersection counts, else the one seen.
 */
export function edgeDistanceM(seen: readonly SeenLeg[]): number {
  const own = seen.filter((one) => !one.isBeyondMedian && sideOf(one) !== null && !one.leg.isService);
  const crossing = own.length > 0 ? own : seen.filter((one) => sideOf(one) !== null);
  return crossing.reduce((most, { leg, turnDeg }) => {
    const sine = Math.abs(Math.sin((turnDeg * Math.PI) / 180));
    return Math.max(most, halfWidthOf(leg) / Math.max(MIN_SINE, sine));
  }, 0);
}

/**
 * The same to a point a distance behind that edge, both measured square to the road met: over the sine of the flattest angle with it.
 */
export function backFromNodeM(seen: readonly SeenLeg[], setbackM: number): number {
  const sine = seen
    .filter((one) => !one.isBeyondMedian && sideOf(one) !== null)
    .reduce((least, { turnDeg }) => Math.min(least, Math.abs(Math.sin((turnDeg * Math.PI) / 180))), 1);
  return edgeDistanceM(seen) + setbackM / Math.max(MIN_SINE, sine);
}

/** The driver's eye a distance back from the intersection, on the center of the lane that comes to it. */
export function eyeAt(scene: SightScene, leg: Leg, backM: number): PlanePoint {
  return pointAlong(laneToward(scene, leg, waitingOffsetM(scene, leg), backM), backM);
}
