import type { Habit } from "../model/terms.ts";
import { lowestAt } from "./profile.ts";

/** A crown keeps at least this share of the tree's height, whatever was measured below it. */
const LEAST_CROWN_SHARE = 0.05;

/**
 * Crown base in meters that puts a crown's lower surface at `headroomM` where it is at a share of its radius: base + lowest × (top − base) =
 * headroom, solved for the base. 0 at least; null at the crown's edge and beyond, where the lower surface is not there.
 */
export function baseForHeadroomM(habit: Habit, heightM: number, share: number, headroomM: number): number | null {
  if (!(share < 1)) return null;
  const lowest = lowestAt(habit, Math.max(0, share));
  if (lowest >= 1) return null;
  const baseM = (headroomM - lowest * heightM) / (1 - lowest);
  return Math.min(Math.max(0, baseM), heightM * (1 - LEAST_CROWN_SHARE));
}
