import type { SightMovement } from "../../model/surroundings.ts";
import { metersFromFeet } from "../../units/length.ts";
import { backFromNodeM, eyeAt } from "./decision-point.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import { laneToward, waitingOffsetM } from "./lanes.ts";
import type { LegControl } from "./leg-controls.ts";
import { pointAlong } from "./point-along.ts";
import type { BuiltTriangle, SightScene } from "./scene.ts";
import { seenLegs, sideOf } from "./seen-legs.ts";
import { sightArea } from "./sight-area.ts";

/** From the front bumper to the driver's eye: 8 ft (Green Book 9.5.3, from memory). */
const BUMPER_TO_EYE_M = metersFromFeet(8);

/**
 * Cases D and E: the first driver waiting on a leg sees the first vehicle waiting on each leg to the left and to the right. A triangle from the
 * eye to the front and the rear of that vehicle. Across the intersection nothing can stand between the two but the roadway itself.
 */
export function firstCarTriangles(
  scene: SightScene,
  intersection: Intersection,
  from: Leg,
  control: LegControl,
  movement: Extract<SightMovement, "first-cars" | "all-way-stop">,
  sides: readonly ("left" | "right")[],
): BuiltTriangle[] {
  const { rules } = scene;
  const seen = seenLegs(scene, intersection, from);
  const eye = eyeAt(scene, from, backFromNodeM(seen, rules.setbackM));
  const lengthM = rules.vehicleLengthM[rules.vehicle];
  return seen.flatMap((one) => {
    const side = sideOf(one);
    const { leg } = one;
    if (side === null || !sides.includes(side) || !leg.arrives || leg.isService || one.isBeyondMedian) return [];
    const frontM = backFromNodeM(seenLegs(scene, intersection, leg), rules.setbackM) - BUMPER_TO_EYE_M;
    const lane = laneToward(scene, leg, waitingOffsetM(scene, leg), frontM + lengthM);
    const vehicle = [pointAlong(lane, frontM), pointAlong(lane, frontM + lengthM)];
    return [
      sightArea(scene, {
        node: intersection.node,
        from,
        toward: leg,
        direction: side,
        movement,
        control,
        legM: lengthM,
        coveredM: lengthM,
        corners: [eye, ...vehicle],
        lane: vehicle,
        isBySpeed: false,
      }),
    ];
  });
}
