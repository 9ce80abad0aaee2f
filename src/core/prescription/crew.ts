import { radiusTowardM } from "../crown/crown.ts";
import { stemDiameterM } from "../crown/stem-diameter.ts";
import type { Conflict, TreeSetting } from "../model/conflict.ts";
import type { Crew } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { visitHoursOf } from "../standard/visit-hours.ts";
import { bearingGapDeg } from "../units/compass.ts";

/** Where one visit cuts, as far as the crew depends on it. */
export interface WorkPlace {
  /** Greatest height in meters at which something is cut. */
  readonly reachM: number;
  readonly limbM: number;
  /** Bearings of the sides that are cut; null stands for all round or unknown. */
  readonly sidesDeg: readonly (number | null)[];
}

/** Voltage in volts from which work inside the minimum is the utility's own; design of this project. */
const UTILITY_FROM_V = 50_000;
/** A cut side is taken to spread this far to both sides of its middle bearing. */
const SIDE_SPREAD_DEG = 90;

/**
 * The least restricted crew that may do a visit.
 *
 * `utility` inside the minimum of 50 kV and more; `line-clearance` where a branch to be cut, or the place where it falls, is within the
 * worker approach distance of a conductor, and for every conflict with one; an unknown voltage takes the largest distance of the
 * standard. `ground` only within pole reach and limb size, with conductors known. Else `aerial`. A plan, not a permission: the
 * people on site and the line's owner decide.
 */
export function crewFor(
  tree: Tree,
  setting: TreeSetting,
  conflicts: readonly Conflict[],
  work: WorkPlace,
  standard: Standard,
): Crew {
  const near = setting.conductor;
  const lines = conflicts.filter((conflict) => conflict.kind === "conductor");
  const voltageV = near?.voltageV ?? null;
  if (voltageV !== null && voltageV >= UTILITY_FROM_V && lines.some((line) => line.measuredM < line.minimumM)) {
    return "utility";
  }
  if (lines.length > 0 || (near !== null && isWithinApproach(tree, near, work))) return "line-clearance";
  const { groundReachM, groundLimbM } = standard.crew;
  const isInReach = work.reachM <= groundReachM && work.limbM <= groundLimbM;
  return isInReach && setting.conductorsKnown ? "ground" : "aerial";
}

function isWithinApproach(tree: Tree, near: NonNullable<TreeSetting["conductor"]>, work: WorkPlace): boolean {
  const { approachM } = near;
  const facesLine = work.sidesDeg.some(
    (side) => side === null || bearingGapDeg(side, near.bearingDeg) <= SIDE_SPREAD_DEG,
  );
  // A crown this near is worked from within reach of the line, whichever side is cut, unless the trunk stands clear of it.
  if (near.crownGapM < approachM && (facesLine || near.trunkDistanceM < approachM)) return true;
  const edgeM = near.trunkDistanceM - radiusTowardM(tree.radii, near.bearingDeg);
  return facesLine && near.heightM <= work.reachM && edgeM < approachM;
}

/** Crew-hours of one visit to a tree. */
export const visitHours = (tree: Tree, standard: Standard): number => visitHoursOf(stemDiameterM(tree), standard);
