import type { Conflict } from "../model/conflict.ts";
import { HAZARDS } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate, yearOf } from "../units/calendar.ts";
import { type Cut, cutFor, isConifer, isHeadroom, isWoody, type Subject, yearsAtClearTo } from "./cut.ts";
import { isYoung } from "./dose-limit.ts";
import { type Candidate, CONIFER_DEPTH_SHARE, candidateOf, computeOptions, lightest } from "./options.ts";
import { divideIntoStages, type StageCuts } from "./stages.ts";

/** How a tree's conflicts are cured, or how far they can be. */
export interface ClearancePlan {
  readonly candidates: readonly Candidate[];
  readonly chosen: number | null;
  readonly stages: readonly StageCuts[];
  /** Conflicts that nothing allowed can cure, most dangerous first. */
  readonly uncured: readonly Conflict[];
  /** The cut that came nearest for the first of them, after all stages; null when nothing could be begun. */
  readonly farthest: Cut | null;
  /** An interim lift of a young tree, with the year in which it is tall enough for the whole one; null year when it never is. */
  readonly interim: { readonly untilYear: number | null; readonly fullLiftM: number } | null;
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
  if (whole.chosen !== null || ordered.length < 2) return whole;
  const kept: Conflict[] = [];
  const uncured: Conflict[] = [];
  let plan: ClearancePlan | null = null;
  for (const conflict of ordered) {
    const tried = planTogether(subject, [...kept, conflict], limitShare, firstShare, asOf, standard);
    if (tried.chosen === null) {
      uncured.push(conflict);
      continue;
    }
    // One that is still to come and leaves nothing to cut today is no reason for a visit of its own.
    if (kept.length === 0 && conflict.reachedOn > asOf && takesNothing(tried)) continue;
    kept.push(conflict);
    plan = tried;
  }
  return plan === null ? { ...whole, uncured } : { ...plan, uncured, farthest: null };
}

/** Whether something is prescribed that finds no branch to take. */
export const takesNothing = (plan: ClearancePlan): boolean =>
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
      interim: { untilYear: interim.untilYear, fullLiftM: interim.fullLiftM },
    };
  }
  // Only the season's dose may be spread over visits; what another limit forbids stays forbidden.
  let nearest: Candidate | null = null;
  for (const candidate of candidates) {
    if (candidate.ruledOut?.limit !== "dose") continue;
    if (nearest === null || candidate.option.doseShare < nearest.option.doseShare) nearest = candidate;
  }
  if (nearest === null) {
    return { candidates, chosen: null, stages: [], uncured: conflicts, farthest: null, interim: null };
  }
  const staging = divideIntoStages(subject, nearest.cuts, (stage) => (stage === 0 ? firstShare : limitShare), standard);
  if (!staging.isComplete) {
    return { candidates, chosen: null, stages: [], uncured: conflicts, farthest: staging.farthest, interim: null };
  }
  // Spread over visits, the option keeps to the limit of each.
  const allowed = { ...nearest, ruledOut: null, option: { ...nearest.option, ruledOutBy: null } };
  const kept = candidates.map((candidate) => (candidate === nearest ? allowed : candidate));
  return done(kept, allowed, staging.stages);
}

const done = (candidates: readonly Candidate[], chosen: Candidate, stages: readonly StageCuts[]): ClearancePlan => ({
  candidates,
  chosen: candidates.indexOf(chosen),
  stages,
  uncured: [],
  farthest: null,
  interim: null,
});

/**
 * An interim lift for a young tree over a way: crown base raised to at most a third of its height, then tips over the way cut back
 * toward the clear-to as far as the season's limit goes. Null when the tree is not young, no way is concerned, or this breaks a limit.
 */
function interimLift(
  subject: Subject,
  conflicts: readonly Conflict[],
  limitShare: number,
  asOf: IsoDate,
  standard: Standard,
): { candidate: Candidate; stage: StageCuts; untilYear: number | null; fullLiftM: number } | null {
  const { tree, crown } = subject;
  const ways = conflicts.filter(
    (conflict) => isHeadroom(conflict.kind) && conflict.kind !== "building-roof" && conflict.admits.includes("lift"),
  );
  if (!isWoody(tree) || tree.form === "palm" || !isYoung(tree) || ways.length === 0) return null;
  const { interimCrownBaseShare, liveCrownRatio } = standard.pruning;
  const fullLiftM = ways.reduce((most, conflict) => Math.max(most, conflict.region.highM), 0);
  const liftM = Math.min(fullLiftM, crown.heightM * interimCrownBaseShare);
  const tips = conflicts
    .filter((conflict) => conflict.admits.includes("shorten"))
    .map((conflict) => cutFor(subject, conflict, "shorten", 0, standard))
    .filter((cut) => !isConifer(tree) || cut.shortenShare <= CONIFER_DEPTH_SHARE);
  const main = ways.reduce((most, conflict) => (conflict.region.highM > most.region.highM ? conflict : most));
  const lift: Cut[] = [];
  if (liftM > crown.crownBaseM) {
    const whole = cutFor(subject, main, "lift", 0, standard);
    lift.push({ ...whole, region: { ...whole.region, highM: liftM }, belowM: liftM, targetM: liftM });
  }
  const heightNeededM = fullLiftM / Math.max(0.01, 1 - liveCrownRatio);
  const yearsNeeded = (heightNeededM - crown.heightM) / Math.max(0.01, tree.traits.heightGrowthMPerYear);
  const untilYear =
    heightNeededM > tree.traits.matureHeightM ? null : yearOf(addDays(asOf, Math.ceil(yearsNeeded * 365.25)));
  const [stage] = divideIntoStages(subject, [...lift, ...tips], (at) => (at === 0 ? limitShare : -1), standard).stages;
  if (stage === undefined || stage.doseShare === 0) return null;
  const years = conflicts.reduce(
    (least, conflict) => Math.min(least, yearsAtClearTo(conflict, "shorten", standard)),
    standard.pruning.cycleYears,
  );
  const cuts = stage.parts.map((part) => part.cut);
  const remedy = lift.length > 0 ? "lift" : "shorten";
  const candidate = candidateOf(subject, cuts, remedy, years, limitShare, standard);
  return candidate.ruledOut === null ? { candidate, stage, untilYear, fullLiftM } : null;
}
