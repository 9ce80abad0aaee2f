import { type Crown, crownOf } from "../crown/crown.ts";
import { rayRadiiM, unionDose } from "../crown/dose.ts";
import { crownInYears } from "../crown/growth.ts";
import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { type IsoDate, yearsBetween } from "../units/calendar.ts";
import type { Subject } from "./cut.ts";
import { crownAsMeasured } from "./measured-crown.ts";
import { subjectDose } from "./subject-dose.ts";

/** On the day a minimum is reached the crown only touches it; a year later there is something to cut. Our policy. */
const YEARS_PAST = 1;

/**
 * The tree as it stands when the work is done: today, or, where nothing of what is to be cured is in the way yet, a year after the first
 * minimum is reached. `around` are all its conflicts, of which walls bound the crown and a measured headroom moves it.
 */
export function subjectAtWork(
  tree: Tree,
  conflicts: readonly Conflict[],
  around: readonly Conflict[],
  standard: Standard,
  options: PlanOptions,
): Subject {
  const crown = crownAsMeasured(tree, crownOf(tree), around);
  const today = subjectOf(tree, crown, around);
  const first = conflicts.reduce<IsoDate | null>(
    (soonest, { reachedOn }) => (soonest === null || reachedOn < soonest ? reachedOn : soonest),
    null,
  );
  if (first === null || first <= options.asOf) return today;
  const regions = conflicts.map((conflict) => conflict.region);
  if (subjectDose(today, regions).volumeShare > 0) return today;
  const years = yearsBetween(options.asOf, first) + YEARS_PAST;
  const withHeight = conflicts.some(({ kind }) => kind === "conductor" || kind === "building-roof");
  return subjectOf(tree, crownInYears(crown, tree.traits, years, standard.pruning.droopMPerYear, withHeight), around);
}

function subjectOf(tree: Tree, crown: Crown, around: readonly Conflict[]): Subject {
  const radiiM = rayRadiiM(crown);
  const regions = around.flatMap(({ solid }) => (solid === undefined ? [] : [solid]));
  if (regions.length === 0) return { tree, crown, radiiM };
  return { tree, crown, radiiM, solids: { regions, dose: unionDose(crown, regions, radiiM) } };
}
