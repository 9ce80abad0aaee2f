import type { Visit } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import { crownVolumeM3 } from "./crown-volume.ts";
import type { Rates } from "./rates.ts";

/** What one visit takes, each an estimate. */
export interface VisitCost {
  readonly hours: number;
  /** Cubic meters of chips; 0 where the dose of the visit is not known, as of dead and broken limbs. */
  readonly debrisM3: number;
  /** Height in meters of the highest cut as far as the plan says it, else the tree's top. */
  readonly reachM: number;
  /** In the currency of the rates: crew-hours, surcharge of the lift for those hours, debris. */
  readonly money: number;
}

/**
 * Cost of a visit: hours x (rate of its crew + surcharge for the lift's reach) + chips x rate of disposal. Chips are the volume of crown taken, share of the
 * live crown x volume of the crown solid, times `chipsPerCrownM3`. Ground crews, and crews that climb, have no lift.
 */
export function visitCost(tree: Tree, visit: Visit, rates: Rates, hasLift: boolean): VisitCost {
  const { hours, crew } = visit;
  const debrisM3 = crownVolumeM3(tree) * visit.doseShare * rates.debris.chipsPerCrownM3;
  const reachM = reachOf(tree, visit);
  const liftRow = rates.lift.find(({ upToM }) => reachM <= upToM) ?? rates.lift.at(-1)!;
  const perHour = rates.perCrewHour[crew] + (hasLift && crew !== "ground" ? liftRow.perHour : 0);
  return { hours, debrisM3, reachM, money: hours * perHour + debrisM3 * rates.debris.perM3 };
}

function reachOf(tree: Tree, { tasks }: Visit): number {
  const topM = tree.height.valueM;
  if (tasks.length === 0) return topM;
  return tasks.reduce((most, { belowM }) => Math.max(most, Math.min(belowM ?? topM, topM)), 0);
}
