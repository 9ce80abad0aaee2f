import { isYoung } from "../crown/life-stage.ts";
import type { Conflict } from "../model/conflict.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate, yearOf } from "../units/calendar.ts";
import { isView, isWoody } from "./kinds.ts";

/** A lift of less than this is no job, meters. Our policy. */
const LEAST_LIFT_M = 0.15;

/** A view is not left to a tree's growth for longer than this. Our policy. */
const LONGEST_WAIT_CYCLES = 2;

/**
 * The year in which a tree that stands in a sight triangle will be tall enough to be raised out of it; null when it is now, when its species never is
 * or not within two cycles, or when its trunk stands beside the triangle, so that tips can be cut back out of it.
 */
export function yearTallEnough(tree: Tree, conflict: Conflict, asOf: IsoDate, standard: Standard): number | null {
  if (!isView(conflict.kind) || conflict.distanceM > 0) return null;
  if (!isWoody(tree) || tree.form === "palm" || !conflict.admits.includes("lift")) return null;
  const neededM = conflict.region.highM / Math.max(0.01, 1 - standard.pruning.liveCrownRatio);
  const heightM = tree.height.valueM;
  if (heightM >= neededM || neededM > tree.traits.matureHeightM) return null;
  const years = (neededM - heightM) / Math.max(0.01, tree.traits.heightGrowthMPerYear);
  if (years > LONGEST_WAIT_CYCLES * standard.pruning.cycleYears) return null;
  return yearOf(addDays(asOf, Math.ceil(years * 365.25)));
}

/**
 * Whether nothing can be done for a tree in a sight triangle but wait until it has grown: a young one with room for an interim lift gets that,
 * and where what is hidden is a hazard nobody waits.
 */
export function onlyWaits(tree: Tree, conflict: Conflict, asOf: IsoDate, standard: Standard): boolean {
  if (conflict.hazard !== null || yearTallEnough(tree, conflict, asOf, standard) === null) return false;
  const liftM = tree.height.valueM * standard.pruning.interimCrownBaseShare;
  return !isYoung(tree) || liftM - tree.crownBase.valueM < LEAST_LIFT_M;
}
