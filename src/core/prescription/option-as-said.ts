import type { PruningOption, Referral } from "../model/prescription.ts";
import type { OptionValue, ReferralResolvedWord } from "../model/word.ts";
import type { WordsOfTree } from "../model/words-in-force.ts";
import type { Standard } from "../standard/standard.ts";
import type { Subject } from "./cut.ts";
import type { DoseLimit } from "./dose-limit.ts";
import type { Earliest } from "./earliest-date.ts";
import type { Candidate } from "./options.ts";
import type { ClearancePlan } from "./plan-clearance.ts";
import { divideIntoStages } from "./stages.ts";

const ROUNDING = 1e-9;

/**
 * The clearance plan with the option that an arborist chose, all of it in one visit; the plan itself where that option is prescribed already or is not
 * among those computed. A limit that it breaks stays in the option's own words. What would be topping, or leave no crown, is no option: it
 * cannot be chosen.
 */
export function planAsSaid(
  plan: ClearancePlan,
  subject: Subject,
  value: OptionValue,
  standard: Standard,
): ClearancePlan {
  const at = optionMeant(
    plan.candidates.map(({ option }) => option),
    value,
    plan.candidates.map((one) => isTopping(one) || isRemoval(one)),
  );
  if (at === null || at === plan.chosen) return plan;
  const chosen = plan.candidates[at]!;
  const cured = new Set(chosen.cuts.map(({ conflict }) => conflict));
  const uncured = plan.uncured.filter((conflict) => !cured.has(conflict));
  return {
    ...plan,
    chosen: at,
    stages: divideIntoStages(subject, chosen.cuts, () => 1, standard).stages,
    uncured,
    limit: uncured.length === 0 ? null : plan.limit,
    farthest: null,
    interim: null,
  };
}

/** Whether an option would cut leaders that no lateral can take over from, or of a tree that has but one. */
const isTopping = ({ ruledOut, cuts }: Candidate): boolean =>
  ruledOut?.limit === "form" && cuts.some(({ leaders }) => leaders !== undefined);

/** Whether nothing of the crown would stay: that is removal, not pruning. */
const isRemoval = ({ option }: Candidate): boolean => option.liveCrownRatioAfter <= 0;

/** Place of the option that a word means: of those with its remedy the one whose figures are nearest; null where there is none. */
export function optionMeant(
  options: readonly PruningOption[],
  value: OptionValue,
  isExcluded: readonly boolean[] = [],
): number | null {
  let best: number | null = null;
  let leastM = Number.POSITIVE_INFINITY;
  options.forEach((option, at) => {
    if (option.remedy !== value.remedy || isExcluded[at] === true) return;
    const apartM = apart(option.liftToM, value.liftToM) + apart(option.shortenM, value.shortenM);
    if (apartM >= leastM) return;
    best = at;
    leastM = apartM;
  });
  return best;
}

const apart = (one: number | null, other: number | null): number => Math.abs((one ?? 0) - (other ?? 0));

/** The referral as it stands after somebody decided it; null for one that is decided. One for another reason stands. */
export const referralAsSaid = (refer: Referral | null, said: WordsOfTree | undefined): Referral | null =>
  refer === null || resolvedAs(refer.code, said) === null ? refer : null;

/** The word that decided a referral of a code; null where nobody did. */
export const resolvedAs = (code: string, said: WordsOfTree | undefined): ReferralResolvedWord | null =>
  said?.resolved.filter(({ value }) => value.code === null || value.code === code).at(-1) ?? null;

/** The date before which no live wood is taken, without the doubt about an unknown planting date where somebody settled it. */
export function earliestAsSaid(
  earliest: Earliest | null,
  said: WordsOfTree | undefined,
  limit: DoseLimit,
  firstShare: number,
): Earliest | null {
  if (earliest?.cause !== "undated" || resolvedAs("confirm-planting-date", said)?.value.mayPrescribe !== true) {
    return earliest;
  }
  return limit.freshOn !== null && firstShare > limit.leftShare + ROUNDING
    ? { date: limit.freshOn, reason: "pruned less than 12 months ago", cause: "pruned" }
    : null;
}
