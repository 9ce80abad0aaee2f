import type { Conflict } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import type { Cut, Subject } from "./cut.ts";
import { type Candidate, candidateFor } from "./options.ts";
import { divideIntoStages, type StageCuts, type Staging, totalDoseShare } from "./stages.ts";

/** A cure spread over visits takes the place of the option it was made from; without a candidate it says how far it would get. */
export type StagedCure =
  | { readonly candidate: Candidate; readonly replaced: Candidate; readonly stages: readonly StageCuts[] }
  | { readonly candidate: null; readonly farthest: Cut | null };

/** A cure that takes several visits must hold at least so long after the last of them; our policy, one growing season. */
const LEAST_YEARS = 1;

/**
 * The option that comes nearest to the season's limit, spread over visits that each keep to theirs, as few as can be, and then at the
 * target that lasts longest, in whole years up to the cycle. Only the dose may be spread; null when every option breaks another limit, whose word stands.
 */
export function stagedCure(
  subject: Subject,
  conflicts: readonly Conflict[],
  candidates: readonly Candidate[],
  limitShare: number,
  firstShare: number,
  standard: Standard,
): StagedCure | null {
  const replaced = nearestByDose(candidates);
  if (replaced === null) return null;
  const { remedy } = replaced.option;
  const at = (years: number): { candidate: Candidate; staging: Staging } | null => {
    // The season's limit is kept visit by visit.
    const candidate = candidateFor(subject, conflicts, remedy, years, 1, standard);
    if (candidate.ruledOut !== null) return null;
    const limit = (stage: number) => (stage === 0 ? firstShare : limitShare);
    return { candidate, staging: divideIntoStages(subject, candidate.cuts, limit, standard) };
  };
  const leastYears = Math.max(LEAST_YEARS, replaced.option.lastsYears);
  const least = at(leastYears);
  if (least === null || !least.staging.isComplete) {
    return { candidate: null, farthest: least?.staging.farthest ?? null };
  }
  // What is taken grows with the years, so the last one that can be completed in as many visits is found by halving.
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

/** The least dose among the options that only the season's dose rules out; the earlier one on a tie. */
function nearestByDose(candidates: readonly Candidate[]): Candidate | null {
  let nearest: Candidate | null = null;
  for (const candidate of candidates) {
    if (candidate.ruledOut?.limit !== "dose") continue;
    if (nearest === null || candidate.option.doseShare < nearest.option.doseShare) nearest = candidate;
  }
  return nearest;
}
