import type { Crown } from "../crown/crown.ts";
import { stemDiameterM } from "../crown/stem-diameter.ts";
import type { Tree } from "../model/trees.ts";

/** Diameter of a limb of mean length at the stem, as a share of the stem's there; our estimate, inside the 0.5 to aim for. */
const LIMB_SHARE = 0.4;
/** Largest limb that may be taken off, as a share of the stem's diameter where it starts: the half that extension rules aim for. */
export const LARGEST_LIMB_SHARE = 0.5;
/** Height in meters at which dbh is measured, 4.5 ft. */
const BREAST_HEIGHT_M = 1.37;
const THINNEST_M = 0.005;
/** Twigs of shrubs and hedges are cut with shears; our estimate. */
const SHRUB_TWIG_M = 0.015;

/**
 * Estimated diameter in meters of a limb at a distance from the trunk (0 at its collar). Our estimate: the stem tapers evenly from
 * breast height to the top, a limb of mean crown radius is 0.4 of the stem where it starts, others in proportion to their length, and
 * a limb tapers evenly to its tip.
 */
export function limbDiameterM(
  tree: Tree,
  crown: Crown,
  startHeightM: number,
  lengthM: number,
  distanceM: number,
): number {
  return limbDiameterOnM(tree, stemAtM(tree, crown, startHeightM), lengthM, distanceM);
}

/** {@link limbDiameterM} of a limb that starts where the stem is `stemM` thick. */
export function limbDiameterOnM(tree: Tree, stemM: number, lengthM: number, distanceM: number): number {
  if (!(lengthM > 0)) return THINNEST_M;
  if (tree.form === "shrub" || tree.form === "hedge") return SHRUB_TWIG_M;
  const atCollarM = stemM * limbShare(tree, lengthM);
  return Math.max(THINNEST_M, atCollarM * Math.max(0, 1 - distanceM / lengthM));
}

/** Estimated diameter of a limb at its collar as a share of the stem's there. */
export function limbShare(tree: Tree, lengthM: number): number {
  return tree.radius.valueM > 0 ? (LIMB_SHARE * lengthM) / tree.radius.valueM : LIMB_SHARE;
}

/** Estimated diameter in meters of the stem at a height above ground; what it is at breast height below that. */
export function stemAtM(tree: Tree, crown: Crown, heightM: number): number {
  const taperM = crown.heightM - BREAST_HEIGHT_M;
  if (!(taperM > 0)) return stemDiameterM(tree);
  const left = (crown.heightM - Math.max(BREAST_HEIGHT_M, heightM)) / taperM;
  return stemDiameterM(tree) * Math.min(1, Math.max(0.05, left));
}
