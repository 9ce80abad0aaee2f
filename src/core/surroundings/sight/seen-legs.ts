import { turnDeg } from "../../plane/bearing.ts";
import { metersFromFeet } from "../../units/length.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import type { SeenLeg, SightScene } from "./scene.ts";

/** What a vehicle waiting in a median leaves free before and behind it (Green Book, from memory: 3 ft). */
const STORAGE_SPARE_M = metersFromFeet(3);

/** Half the width of a leg's traveled way in meters, with a median drawn into its line. */
export function halfWidthOf({ road }: Leg): number {
  const { lanes, laneM, halfWidthM, details } = road;
  const medianM = details?.medianM ?? 0;
  return medianM === 0 ? halfWidthM : Math.max(halfWidthM, (lanes * laneM + medianM) / 2);
}

/** Whether a vehicle of the standard can wait in the opening of a median, so that the carriageways are crossed one after the other. */
export function isStorage(scene: SightScene, intersection: Intersection, leg: Leg): boolean {
  return (
    leg.opening !== null &&
    medianOf(scene, intersection, leg) >= scene.rules.vehicleLengthM[scene.rules.vehicle] + 2 * STORAGE_SPARE_M
  );
}

/**
 * The legs that concern a driver who comes to an intersection along a leg, each with the turn toward it: those of the intersection, and those
 * of the other carriageway where the median is too narrow to wait in. Openings of medians themselves are left out.
 */
export function seenLegs(scene: SightScene, intersection: Intersection, from: Leg): SeenLeg[] {
  const headingDeg = from.bearingDeg + 180;
  const seen: SeenLeg[] = [];
  for (const leg of intersection.legs) {
    if (leg === from) continue;
    if (leg.opening === null) {
      seen.push({ leg, turnDeg: turnDeg(headingDeg, leg.bearingDeg), medianM: 0, isBeyondMedian: false });
      continue;
    }
    const beyond = scene.intersections.get(leg.opening.node);
    if (beyond === undefined || isStorage(scene, intersection, leg)) continue;
    const medianM = medianOf(scene, intersection, leg);
    for (const other of beyond.legs) {
      if (other.opening !== null) continue;
      seen.push({ leg: other, turnDeg: turnDeg(headingDeg, other.bearingDeg), medianM, isBeyondMedian: true });
    }
  }
  return seen;
}

/** Width in meters of the median that an opening leads through: its length without half of each carriageway. */
function medianOf(scene: SightScene, intersection: Intersection, leg: Leg): number {
  const beyond = scene.intersections.get(leg.opening!.node);
  const half = (legs: readonly Leg[]): number =>
    legs.reduce((most, one) => (one.road.oneway === 0 ? most : Math.max(most, halfWidthOf(one))), 0);
  return Math.max(0, leg.opening!.lengthM - half(intersection.legs) - half(beyond?.legs ?? []));
}

/** A leg within this of square to the driver, degrees, carries crossing traffic; one nearer to straight on goes on across. Our choice. */
const MAX_OFF_SQUARE_DEG = 60;

/** The side on which a driver sees a leg; null where it lies ahead or beside the driver's own. */
export function sideOf({ turnDeg: turn }: SeenLeg): "left" | "right" | null {
  if (Math.abs(Math.abs(turn) - 90) > MAX_OFF_SQUARE_DEG) return null;
  return turn < 0 ? "left" : "right";
}

export const isAhead = ({ turnDeg: turn }: SeenLeg): boolean => Math.abs(turn) < 90 - MAX_OFF_SQUARE_DEG;
