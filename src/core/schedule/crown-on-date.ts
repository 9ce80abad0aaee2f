import { type Crown, crownOf } from "../crown/crown.ts";
import { crownInYears } from "../crown/growth.ts";
import type { Prescription } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import { type IsoDate, yearsBetween } from "../units/calendar.ts";

/** A visit that is done, by its date; those of the plan have tasks, returns and what grows in have null, training has none. */
export interface DoneVisit {
  readonly on: IsoDate;
  readonly tasks: Prescription["tasks"] | null;
}

/**
 * A tree's crown on a date: grown by its species' rates and drooped since the as-of date, then raised by what was lifted all round and sinking
 * again since. A visit of the plan lifts to what its tasks say, a return to what the prescribed option reaches.
 *
 * Shortened tips and limbs taken on one side leave the outline as it is: a plan keeps no shape of them. Rates as in {@link crownInYears}.
 */
export function crownOnDate(
  tree: Tree,
  prescription: Prescription,
  done: readonly DoneVisit[],
  asOf: IsoDate,
  date: IsoDate,
  droopMPerYear: number,
): Crown {
  const grown = crownInYears(crownOf(tree), tree.traits, yearsBetween(asOf, date), droopMPerYear, true);
  let crownBaseM = grown.crownBaseM;
  for (const { on, tasks } of done) {
    const liftedM = tasks === null ? returnLiftM(prescription) : tasksLiftM(tasks);
    crownBaseM = Math.max(crownBaseM, liftedM - droopMPerYear * Math.max(0, yearsBetween(on, date)));
  }
  return { ...grown, crownBaseM: Math.min(crownBaseM, grown.heightM) };
}

/** Height in meters below which the tasks take every limb all round; 0 where none does. */
const tasksLiftM = (tasks: Prescription["tasks"]): number =>
  tasks.reduce((most, { remedy, belowM }) => (remedy === "lift" && belowM !== null ? Math.max(most, belowM) : most), 0);

function returnLiftM({ options, chosen }: Prescription): number {
  const option = chosen === null ? undefined : options[chosen];
  return option?.remedy === "lift" ? (option.liftToM ?? 0) : 0;
}
