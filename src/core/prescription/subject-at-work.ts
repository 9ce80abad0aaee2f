import { crownOf } from "../crown/crown.ts";
import { rayRadiiM, unionDose } from "../crown/dose.ts";
import { crownInYears } from "../crown/growth.ts";
import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { type IsoDate, yearsBetween } from "../units/calendar.ts";
import type { Subject } from "./cut.ts";
import { crownAsMeasured } from "./measured-crown.ts";

/** On the day a minimum is reached the crown only touches it; a year later there is something to cut. Our policy. */
const YEARS_PAST = 1;

/** The tree as it stands when the work is done: today, or, where nothing is in the way yet, a year after the first minimum is reached. */
export function subjectAtWork(
  tree: Tree,
  conflicts: readonly Conflict[],
  standard: Standard,
  options: PlanOptions,
): { subject: Subject; isForGrowth: boolean } {
  const crown = crownAsMeasured(tree, crownOf(tree), conflicts);
  const today: Subject = { tree, crown, radiiM: rayRadiiM(crown) };
  const first = conflicts.reduce<IsoDate | null>(
    (soonest, { reachedOn }) => (soonest === null || reachedOn < soonest ? reachedOn : soonest),
    null,
  );
  if (first === null || first <= options.asOf) return { subject: today, isForGrowth: false };
  const regions = conflicts.map((conflict) => conflict.region);
  if (unionDose(crown, regions, today.radiiM).volumeShare > 0) return { subject: today, isForGrowth: false };
  const years = yearsBetween(options.asOf, first) + YEARS_PAST;
  const withHeight = conflicts.some(({ kind }) => kind === "conductor" || kind === "building-roof");
  const grown = crownInYears(crown, tree.traits, years, standard.pruning.droopMPerYear, withHeight);
  return { subject: { tree, crown: grown, radiiM: rayRadiiM(grown) }, isForGrowth: true };
}
