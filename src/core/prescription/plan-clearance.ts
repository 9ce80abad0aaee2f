import type { Conflict } from "../model/conflict.ts";
import { HAZARDS } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import type { IsoDate } from "../units/calendar.ts";
import type { Cut, Subject } from "./cut.ts";
import { type InterimLift, interimLift } from "./interim-lift.ts";
import { type Candidate, computeOptions, lightest, type RuledOut } from "./options.ts";
import { stagedCure } from "./staged-cure.ts";
import { divideIntoStages, type StageCuts } from "./stages.ts";

/** How a tree's conflicts are cured, or how far they can be. */
export interface ClearancePlan {
  readonly candidates: readonly Candidate[];
  readonly chosen: number | null;
  readonly stages: readonly StageCuts[];
  /** Conflicts that nothing allowed can cure, most dangerous first. */
  readonly uncured: readonly Conflict[];
  /** The limit that stands in the way of the first of them; null when there is none. */
  readonly limit: RuledOut | null;
  /** The cut that came nearest for the first of them, after all stages; null when nothing could be begun. */
  readonly farthest: Cut | null;
  /** An interim lift of a young tree, in place of the whole one. */
  readonly interim: InterimLift | null;
}

/**
 * The lightest allowed cure of all conflicts in one visit; else, for a young tree, an interim lift; else staged visits, the most
 * dangerous conflict first; else the same for as many of the conflicts as can be cured, in that order.
 *
 * `limitShare` is what one season may take, `firstShare` what the first may (less where other work takes some).
 */
export function planClearance(
  subject: Subject,
  conflicts: readonly Conflict[],
  limitShare: number,
  firstShare: number,
  asOf: IsoDate,
  standard: Standard,
): ClearancePlan {
  const ordered = byDanger(conflicts);
  const whole = planTogether(subject, ordered, limitShare, firstShare, asOf, standard);
  if ((whole.chosen !== null && whole.uncured.length === 0) || ordered.length < 2) return whole;
  const kept: Conflict[] = [];
  const uncured: Conflict[] = [];
  let plan: ClearancePlan | null = null;
  let limit: RuledOut | null = null;
  for (const conflict of ordered) {
    const tried = planTogether(subject, [...kept, conflict], limitShare, firstShare, asOf, standard);
    if (tried.chosen === null || tried.uncured.length > 0) {
      if (uncured.length === 0) limit = tried.limit;
      uncured.push(conflict);
      continue;
    }
    // One that is still to come and leaves nothing to cut today is no reason for a visit of its own.
    if (kept.length === 0 && conflict.reachedOn > asOf && takesNothing(tried)) continue;
    kept.push(conflict);
    plan = tried;
  }
  if (plan === null || (whole.chosen !== null && whole.uncured.length <= uncured.length)) {
    return whole.chosen === null ? { ...whole, uncured } : whole;
  }
  return { ...plan, uncured, limit, farthest: null };
}

/** Whether something is prescribed that finds no branch to take. */
const takesNothing = (plan: ClearancePlan): boolean =>
  plan.chosen !== null && plan.stages.every((stage) => stage.doseShare <= 0);

/** Hazards first in their order, then the share of the minimum that is missing, then the given order. */
export function byDanger(conflicts: readonly Conflict[]): Conflict[] {
  const missing = (conflict: Conflict) => conflict.encroachmentM / Math.max(0.01, conflict.minimumM);
  return conflicts
    .map((conflict, at) => ({ conflict, at }))
    .sort(
      (one, other) =>
        hazardRank(one.conflict) - hazardRank(other.conflict) ||
        missing(other.conflict) - missing(one.conflict) ||
        one.at - other.at,
    )
    .map(({ conflict }) => conflict);
}

const hazardRank = (conflict: Conflict): number =>
  conflict.hazard === null ? HAZARDS.length : HAZARDS.indexOf(conflict.hazard);

function planTogether(
  subject: Subject,
  conflicts: readonly Conflict[],
  limitShare: number,
  firstShare: number,
  asOf: IsoDate,
  standard: Standard,
): ClearancePlan {
  const candidates = computeOptions(subject, conflicts, firstShare, standard);
  const best = lightest(candidates);
  if (best !== null) {
    const { stages } = divideIntoStages(subject, best.cuts, () => firstShare, standard);
    return done(candidates, best, stages);
  }
  const interim = interimLift(subject, conflicts, firstShare, asOf, standard);
  if (interim !== null) {
    return {
      ...done([...candidates, interim.candidate], interim.candidate, [interim.stage]),
      interim,
      uncured: interim.uncured,
      limit: interim.uncured.length === 0 ? null : nearestLimit(candidates),
    };
  }
  const staged = stagedCure(subject, conflicts, candidates, limitShare, firstShare, standard);
  if (staged === null) return { ...nothing(candidates, conflicts), farthest: null };
  if (staged.candidate === null) return { ...nothing(candidates, conflicts), farthest: staged.farthest };
  const { replaced, candidate, stages } = staged;
  const kept = candidates.map((one) => (one === replaced ? candidate : one));
  return done(kept, candidate, stages);
}

const done = (candidates: readonly Candidate[], chosen: Candidate, stages: readonly StageCuts[]): ClearancePlan => ({
  candidates,
  chosen: candidates.indexOf(chosen),
  stages,
  uncured: [],
  limit: null,
  farthest: null,
  interim: null,
});

const nothing = (candidates: readonly Candidate[], uncured: readonly Conflict[]): Omit<ClearancePlan, "farthest"> => ({
  candidates,
  chosen: null,
  stages: [],
  uncured,
  limit: nearestLimit(candidates),
  interim: null,
});

/** The limit of the option that comes nearest to being allowed: the least of those a dose forbids, else the first. */
function nearestLimit(candidates: readonly Candidate[]): RuledOut | null {
  const limits = candidates.flatMap(({ ruledOut }) => (ruledOut === null ? [] : [ruledOut]));
  return limits.find(({ limit }) => limit === "dose") ?? limits[0] ?? null;
}
