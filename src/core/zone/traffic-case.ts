import type { RoadAcross, SurroundingFeature } from "../model/surroundings.ts";
import type { TrafficCase } from "../model/zone.ts";
import { metersFromFeet } from "../units/length.ts";
import { dropReachM, type Stop } from "./stops.ts";

/** Work nearer than this to the traveled way needs traffic control even beyond the shoulder (MUTCD 6N.05: 15 ft). */
export const BESIDE_ROAD_M = metersFromFeet(15);
/** Width of a recorded parking lane: 7 to 8 ft in the guides read. */
const PARKING_LANE_M = metersFromFeet(8);
/** A lift or truck with its outriggers in; legal vehicles are up to 8 ft 6 in wide, of which the curb takes some. Our policy. */
const VEHICLE_M = metersFromFeet(8);

/** What one tree's work takes of the road beside it. */
export interface RoadUse {
  readonly caseId: TrafficCase;
  /** Parking lane or shoulder on that side, meters. */
  readonly sideRoomM: number;
  /** Whether a vehicle stands on the road beside the tree. */
  readonly hasVehicle: boolean;
}

/**
 * What work on a tree takes of its road, from where the drop zone and the lift are: a lane where either reaches past parking lane and shoulder,
 * the parking lane or shoulder where it keeps to that, else the ground beside the road up to 15 ft from it; `off-road` farther away. Which lane
 * case it is depends on the lanes: flaggers where one lane is left for both ways, a merge on four lanes or more and on one-way roads with two.
 */
export function roadUse(stop: Stop, feature: SurroundingFeature | null, hasLift: boolean): RoadUse {
  const gapM = stop.setting?.road?.distanceM ?? Number.POSITIVE_INFINITY;
  const sideRoomM = sideRoom(feature);
  const hasVehicle = hasLift && stop.visit.crew !== "ground" && gapM <= BESIDE_ROAD_M;
  const reachesM = dropReachM(stop) - gapM;
  if (reachesM < 0 && !hasVehicle) {
    return { caseId: gapM <= BESIDE_ROAD_M ? "beside-road" : "off-road", sideRoomM, hasVehicle };
  }
  const takesLane = reachesM > sideRoomM || (hasVehicle && sideRoomM < VEHICLE_M - 0.05);
  if (takesLane) return { caseId: laneCase(feature), sideRoomM, hasVehicle };
  return { caseId: hasParking(feature) ? "parking-lane" : "shoulder", sideRoomM, hasVehicle };
}

function laneCase(feature: SurroundingFeature | null): TrafficCase {
  const lanes = feature?.lanes ?? null;
  if ((feature?.across?.oneway ?? 0) !== 0) return lanes !== null && lanes >= 2 ? "merge" : "one-way-closed";
  return lanes !== null && lanes >= 4 ? "merge" : "flaggers";
}

/** The narrower of the sides' room: which side a tree is on is not asked. */
function sideRoom(feature: SurroundingFeature | null): number {
  const across = feature?.across;
  if (across === undefined) return 0;
  return Math.min(roomOn(across, "left"), roomOn(across, "right"));
}

function roomOn({ parking, shoulderM }: RoadAcross, side: "left" | "right"): number {
  return (parking[side] === true ? PARKING_LANE_M : 0) + (shoulderM[side] ?? 0);
}

const hasParking = (feature: SurroundingFeature | null): boolean =>
  feature?.across?.parking.left === true || feature?.across?.parking.right === true;
