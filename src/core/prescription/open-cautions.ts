import type { Conflict } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Task } from "../model/prescription.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import type { IsoDate } from "../units/calendar.ts";
import { formatLength } from "../units/format-length.ts";
import { causeWords } from "./cause-words.ts";
import type { ConflictsByCure } from "./choose-referral.ts";
import { mayStopShort } from "./clearance-target.ts";
import { thingWords } from "./conflict-words.ts";
import { yearTallEnough } from "./grows-out-of-view.ts";
import { byDanger, type ClearancePlan } from "./plan-clearance.ts";

/**
 * What the visits leave undone, so that nobody takes the tree for finished: hazards that the first visit does not end, conflicts that stay
 * open, those to be measured, structural work put off. Of several conflicts with one thing the worst is told.
 */
export function openCautions(
  tree: Tree,
  plan: ClearancePlan | null,
  by: ConflictsByCure,
  putOff: readonly Task[],
  standard: Standard,
  { units, asOf }: PlanOptions,
): string[] {
  const growing = [...by.waiting, ...(plan?.interim?.openWays.keys() ?? [])].filter(
    (conflict) => yearTallEnough(tree, conflict, asOf, standard) !== null,
  );
  const open = worstOfEach([...by.onlyTop, ...by.trunkInside, ...(plan?.uncured ?? [])]);
  return [
    ...worstOfEach(hazardsAfterFirst(plan, standard)).map((conflict) => {
      const which = plan?.stages.length === 1 ? "the one visit planned" : "the first visit";
      const reachedM = reachedAtFirst(plan, conflict);
      const then =
        reachedM < conflict.measuredM + SHORT_M ? "" : ` Then it is clear to ${formatLength(reachedM, units)} only.`;
      return `Still a hazard after ${which}: ${causeWords(conflict, tree, units)}${then} Mark or close the place until it is cured.`;
    }),
    ...worstOfEach(shortOf(plan)).map(
      (conflict) =>
        `Cleared less than the usual ${formatLength(conflict.clearToM, units)} from ${thingWords(conflict)}, as far as the tree bears it: look at it again before the minimum is reached.`,
    ),
    ...open.map((conflict) => `Stays open after this plan: ${causeWords(conflict, tree, units)}`),
    ...worstOfEach(growing).map((conflict) => growingWords(tree, conflict, asOf, standard)),
    ...worstOfEach(by.possible).map(
      (conflict) => `Only possible, measure on site: ${causeWords(conflict, tree, units)}`,
    ),
    ...putOff.map((task) => `Put off, as the limits leave no room for it now: ${task.where}.`),
  ];
}

/** A view stays hidden in part for years: who decides whether it can. */
function growingWords(tree: Tree, conflict: Conflict, asOf: IsoDate, standard: Standard): string {
  const year = yearTallEnough(tree, conflict, asOf, standard);
  return `Open until about ${year}, when the tree is tall enough to be raised out of ${thingWords(conflict)}: whether the intersection can wait is for the traffic engineer; until then the tree can be moved while it is small, or the road marked or slowed.`;
}

/** Conflicts whose cure stops short of the clear-to. */
function shortOf(plan: ClearancePlan | null): Conflict[] {
  const chosen = plan === null || plan.chosen === null ? null : plan.candidates[plan.chosen]!;
  return (chosen?.cuts ?? []).flatMap(({ conflict, targetM }) =>
    mayStopShort(conflict, "short") && targetM < conflict.clearToM - SHORT_M ? [conflict] : [],
  );
}

/** Less is rounding, meters. */
const SHORT_M = 0.05;

/** Hazards that the first visit does not bring above the height or distance from which they are none. */
function hazardsAfterFirst(plan: ClearancePlan | null, standard: Standard): Conflict[] {
  const first = plan?.stages[0];
  if (first === undefined) return [];
  const open = [...first.open.map(({ conflict }) => conflict), ...(plan?.interim?.openWays.keys() ?? [])];
  return open.flatMap((conflict) => {
    if (conflict.hazard === null) return [];
    const limitM = standard.rules.find(({ id }) => id === conflict.ruleId)?.hazard?.belowM ?? conflict.minimumM;
    return reachedAtFirst(plan, conflict) < limitM ? [conflict] : [];
  });
}

/** Height or distance in meters that the first visit brings a conflict to; what is measured now where it cuts nothing for it. */
const reachedAtFirst = (plan: ClearancePlan | null, conflict: Conflict): number =>
  (plan?.stages[0]?.parts ?? []).reduce(
    (most, { cut }) => (cut.conflict === conflict ? Math.max(most, cut.targetM) : most),
    conflict.measuredM,
  );

function worstOfEach(conflicts: readonly Conflict[]): Conflict[] {
  const seen = new Set<string>();
  return byDanger([...new Set(conflicts)]).filter((conflict) => {
    const thing = `${conflict.kind} ${thingWords(conflict)}`;
    if (seen.has(thing)) return false;
    seen.add(thing);
    return true;
  });
}
