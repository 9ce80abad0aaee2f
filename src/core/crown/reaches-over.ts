import type { ConflictRecord } from "../model/conflict.ts";
import type { Tree } from "../model/trees.ts";
import { radiusTowardM } from "./crown.ts";
import { isFieldHeadroom } from "./field-headroom.ts";

/**
 * Whether the crown is over a way, roof or view today. One that is not has been given the minimum, or the height of its edge, in place of
 * a headroom, which must not be told as measured. A headroom measured in the field is always over its road.
 */
export function reachesOver(tree: Tree, conflict: ConflictRecord): boolean {
  const { measuredM, minimumM, bearingDeg, distanceM } = conflict;
  if (measuredM < minimumM || isFieldHeadroom(tree, conflict)) return true;
  return measuredM !== minimumM && radiusTowardM(tree.radii, bearingDeg) > distanceM;
}
