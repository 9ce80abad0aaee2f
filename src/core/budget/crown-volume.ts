import { crownOf } from "../crown/crown.ts";
import { squaredShareBelow } from "../crown/profile-integral.ts";
import type { Tree } from "../model/trees.ts";

/**
 * Volume in cubic meters of a tree's crown as a solid: area of its outline, a quarter of an ellipse between each two of its radii, times its depth, times the
 * integral of the squared profile. Geometry. An ellipsoid 8 m wide and deep holds 4/3 pi 4^3 = 268 m3.
 */
export function crownVolumeM3(tree: Tree): number {
  const { heightM, crownBaseM, radii, habit } = crownOf(tree);
  const { northM, eastM, southM, westM } = radii;
  const outlineM2 = (Math.PI / 4) * (northM * eastM + eastM * southM + southM * westM + westM * northM);
  return outlineM2 * Math.max(0, heightM - crownBaseM) * squaredShareBelow(habit, 1);
}
