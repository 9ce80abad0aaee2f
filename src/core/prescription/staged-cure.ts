import type { Conflict } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import { LEAST_YEARS, type Reach } from "./clearance-target.ts";
import type { Cut, Subject } from "./cut.ts";
import { type Candidate, candidateFor } from "./options.ts";
import { divideIntoStages, type StageCuts, type Staging, totalDoseShare } from "./stages.ts";

/** A cure spread over visits takes the place of the option it was made from; without a candidate it says how far it would get. */
export type StagedCure =
  | { readonly candidate: Candidate; readonly replaced: Candidate; readonly stages: readonly StageCuts[] }
  | { readonly candidate: null; readonly farthest: Cut | null };

interface Staged {
  readonly candidate: Candidate;
  readonly staging: Staging;
}

/**
 * The lightest option that only the season's dose keeps from lasting a year and that visits which each keep to their limit can complete: as few as
 * can be, and then at the target that lasts longest, in whole years up to the cycle. Only the dose may be spread, and leaders come down
 * in one visit; null when every option breaks another limit, whose word stands. With fewer `leastYears` than one it need not last that long.
 */
export function stagedCure(
  subject: Subject,
  conflicts: readonly Conflict[],
  candidates: readonly Candidate[],
  limitShare: number,
  firstShare: number,
  standard: Standard,
  reach: Reach = "clear-to",
  leastYears = LEAST_YEARS,
): StagedCure | null {
  const limit = (stage: number) => (stage === 0 ? firstShare : limitShare);
  let farthest: Cut | null = null;
  let isAnySpread = false;
  for (const replaced of byDose(candidates)) {
    const at = (years: number): Staged | null => {
      // The season's limit is kept visit by visit.
      const { remedy } = replaced.option;
      const candidate = candidateFor(subject, conflicts, remedy, years, 1, standard, reach);
      if (candidate.ruledOut !== null) return null;
      const { cuts, option } = candidate;
      return { candidate, staging: divideIntoStages(subject, cuts, limit, standard, option.doseShare) };
    };
    const years = Math.max(leastYears, replaced.option.lastsYears);
    const least = at(years);
    if (least?.staging.isComplete === true) return longest(least, years, at, replaced, standard);
    isAnySpread ||= replaced.ruledOut?.limit === "dose" || least !== null;
    farthest ??= least?.staging.farthest ?? null;
  }
  return isAnySpread ? { candidate: null, farthest } : null;
}

/** What is taken grows with the years, so the last one that can be completed in as many visits is found by halving. */
function longest(
  least: Staged,
  leastYears: number,
  at: (years: number) => Staged | null,
  replaced: Candidate,
  standard: Standard,
): StagedCure {
  let best = least;
  let allowed = 0;
  let refused = Math.floor(standard.pruning.cycleYears - leastYears) + 1;
  while (refused - allowed > 1) {
    const step = (allowed + refused) >> 1;
    const tried = at(leastYears + step);
    if (tried?.staging.isComplete === true && tried.staging.stages.length <= least.staging.stages.length) {
      best = tried;
      allowed = step;
    } else refused = step;
  }
  const { option } = best.candidate;
  const targets = (best === least ? [least] : [least, best]).map(({ candidate, staging }) => ({
    lastsYears: candidate.option.lastsYears,
    doseShare: totalDoseShare(staging.stages),
    ruledOutBy: null,
  }));
  const dosePerYear = targets.at(-1)!.doseShare / Math.max(LEAST_YEARS, option.lastsYears);
  return {
    candidate: { ...best.candidate, option: { ...option, dosePerYear, targets } },
    replaced,
    stages: best.staging.stages,
  };
}

/** The options that the season's dose alone rules out, or stops short of a year, the least dose first; the earlier one on a tie. */
const byDose = (candidates: readonly Candidate[]): Candidate[] =>
  candidates
    .filter(
      ({ ruledOut, cuts }) =>
        (ruledOut?.limit === "dose" || ruledOut?.limit === "brief") &&
        cuts.every(({ leaders }) => leaders === undefined),
    )
    .sort((one, other) => one.option.doseShare - other.option.doseShare);
