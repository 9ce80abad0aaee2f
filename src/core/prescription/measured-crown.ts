import type { Crown } from "../crown/crown.ts";
import { radiusTowardM } from "../crown/crown.ts";
import { lowestAt } from "../crown/profile.ts";
import { type Conflict, RAY_COUNT } from "../model/conflict.ts";
import type { Tree } from "../model/trees.ts";
import { bearingOf } from "./cut.ts";

/**
 * The crown with its base moved so that its lower surface over the road lies where it was measured in the field; the crown itself
 * without such a measurement or where the model does not reach the road.
 *
 * The field figure outranks the model, and the dose must come from the solid that explains it.
 */
export function crownAsMeasured(tree: Tree, crown: Crown, conflicts: readonly Conflict[]): Crown {
  const headroomM = tree.headroomOverRoadM;
  const road = conflicts.find((conflict) => conflict.kind === "roadway");
  if (headroomM === null || road === undefined) return crown;
  let nearestShare = 1;
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const radiusM = radiusTowardM(crown.radii, bearingOf(ray));
    if (radiusM > 0) nearestShare = Math.min(nearestShare, road.region.fromM[ray]! / radiusM);
  }
  if (nearestShare >= 1) return crown;
  // Lower surface at that share: base + lowest * (top - base) = headroom, solved for the base.
  const lowest = lowestAt(crown.habit, Math.max(0, nearestShare));
  const baseM = (headroomM - lowest * crown.heightM) / (1 - lowest);
  return { ...crown, crownBaseM: Math.min(Math.max(0, baseM), crown.heightM * 0.95) };
}
