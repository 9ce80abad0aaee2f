import { baseForHeadroomM } from "../crown/base-for-headroom.ts";
import type { Crown } from "../crown/crown.ts";
import { radiusTowardM } from "../crown/crown.ts";
import { isFieldHeadroom } from "../crown/field-headroom.ts";
import { type Conflict, RAY_COUNT } from "../model/conflict.ts";
import type { Tree } from "../model/trees.ts";
import { bearingOf } from "./bearing-of.ts";

/**
 * The crown with its base moved so that its lower surface over the road lies where it was measured in the field; the crown itself
 * without such a measurement or where the model does not reach the road.
 *
 * The field figure outranks the model, and the dose must come from the solid that explains it.
 */
export function crownAsMeasured(tree: Tree, crown: Crown, conflicts: readonly Conflict[]): Crown {
  const headroomM = tree.headroomOverRoadM;
  const road = conflicts.find((conflict) => isFieldHeadroom(tree, conflict));
  if (headroomM === null || road === undefined) return crown;
  let nearestShare = 1;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const radiusM = radiusTowardM(crown.radii, bearingOf(ray));
    if (radiusM > 0) nearestShare = Math.min(nearestShare, road.region.fromM[ray]! / radiusM);
  }
  const baseM = baseForHeadroomM(crown.habit, crown.heightM, nearestShare, headroomM);
  return baseM === null ? crown : { ...crown, crownBaseM: baseM };
}
