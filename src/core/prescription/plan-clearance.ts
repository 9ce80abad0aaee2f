import type { Conflict } from "../model/conflict.ts";
import { HAZARDS } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import type { IsoDate } from "../units/calendar.ts";
import { LEAST_YEARS, mayStopShort, standsNearWall } from "./clearance-target.ts";
import type { Cut, Subject } from "./cut.ts";
import { type InterimLift, interimLift } from "./interim-lift.ts";
import { isUnderLine } from "./leader-cut.ts";
import type { RuledOut } from "./limits.ts";
import { type Candidate, computeOptions, lightest, withBriefRuledOut } from "./options.ts";
import { type StagedCure, stagedCure } from "./staged-cure.ts";
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
 * dangerous conflict first; else, at walls, roofs and lines, less than the clear-to; else the same for as many of the conflicts as can be cured,
 * in that order. Each lasts a year at least; one that does not is prescribed for a hazard only, where nothing longer is allowed.
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
  const together = (of: readonly Conflict[], mayBeBrief: boolean) =>
    planTogether({ subject, conflicts: of, limitShare, firstShare, asOf, standard, mayBeBrief });
  const isOne = ordered.length < 2;
  const whole = together(ordered, isOne && ordered.some(isHazard));
  if ((whole.chosen !== null && whole.uncured.length === 0) || isOne) return whole;
  const kept: Conflict[] = [];
  const uncured: Conflict[] = [];
  let plan: ClearancePlan | null = null;
  let limit: RuledOut | null = null;
  for (const conflict of ordered) {
    // Whoever comes for a brief cure of a hazard does the rest on the way.
    const tried = together([...kept, conflict], isHazard(conflict) || isBrief(plan));
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

const isHazard = ({ hazard }: Conflict): boolean => hazard !== null;

const isBrief = (plan: ClearancePlan | null): boolean =>
  plan !== null && plan.chosen !== null && plan.candidates[plan.chosen]!.option.lastsYears < LEAST_YEARS;

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

interface Together {
  readonly subject: Subject;
  readonly conflicts: readonly Conflict[];
  readonly limitShare: number;
  readonly firstShare: number;
  readonly asOf: IsoDate;
  readonly standard: Standard;
  /** Whether a cure that lasts less than a year will do where there is no other. */
  readonly mayBeBrief: boolean;
}

function planTogether(given: Together): ClearancePlan {
  const { subject, conflicts, limitShare, firstShare, asOf, standard, mayBeBrief } = given;
  const all = computeOptions(subject, conflicts, firstShare, standard);
  const candidates = withBriefRuledOut(all);
  const isUnder = conflicts.some((conflict) => isUnderLine(subject.tree, conflict));
  // Beside a line cuts that leave the leader compete with those that bring it down.
  const shorter = isUnder ? shortOptions(given).filter(({ cuts }) => cuts.every(({ leaders }) => !leaders)) : [];
  const best = lightest([...candidates, ...shorter]);
  if (best !== null) return inOneVisit(given, [...candidates, ...shorter], best);
  const brief = conflicts.some(isHazard) ? lightest(all) : null;
  // A hazard is ended, though for less than a year, rather than left open until the tree has grown.
  const interim = brief === null ? interimLift(subject, conflicts, firstShare, asOf, standard) : null;
  if (interim !== null) {
    return {
      ...done([...candidates, interim.candidate], interim.candidate, [interim.stage]),
      interim,
      uncured: interim.uncured,
      limit: interim.uncured.length === 0 ? null : nearestLimit(candidates),
    };
  }
  const staged = stagedCure(subject, conflicts, candidates, limitShare, firstShare, standard);
  const inStages = staged === null ? null : visitsOf(staged, candidates);
  if (inStages !== null && !(mayBeBrief && leavesHazard(inStages))) return inStages;
  const nearer = cureShortOfClearTo(given, candidates);
  if (nearer !== null) return nearer;
  if (mayBeBrief && brief !== null) return inOneVisit(given, all, brief);
  // A hazard that one visit cannot end is ended by several, though it comes back within a year, rather than left as it is.
  if (mayBeBrief && inStages === null && conflicts.some(isHazard)) {
    const passing = stagedCure(subject, conflicts, candidates, limitShare, firstShare, standard, "clear-to", 0);
    if (passing !== null && passing.candidate !== null && passing.candidate.option.lastsYears > 0)
      return visitsOf(passing, candidates)!;
  }
  return (
    inStages ?? { ...nothing(candidates, conflicts), farthest: staged?.candidate === null ? staged.farthest : null }
  );
}

const shortOptions = ({ subject, conflicts, firstShare, standard }: Together): Candidate[] =>
  conflicts.some((conflict) => mayStopShort(conflict, "short") && !standsNearWall(conflict))
    ? withBriefRuledOut(computeOptions(subject, conflicts, firstShare, standard, "short"))
    : [];

/** One visit, else several, that leave less than the clear-to free where that is allowed; null where it is not, or is of no use. */
function cureShortOfClearTo(given: Together, candidates: readonly Candidate[]): ClearancePlan | null {
  const { subject, conflicts, limitShare, firstShare, standard } = given;
  const shorter = shortOptions(given);
  const inPlace = (best: Candidate, replaced: Candidate) => {
    const { remedy } = replaced.option;
    // Whole limbs may be an option of their own only where less is freed: for the clear-to it may all be leaders, which make one option.
    return candidates.some(({ option }) => option.remedy === remedy)
      ? candidates.map((one) => (one.option.remedy === remedy ? best : one))
      : [...candidates, best];
  };
  const best = lightest(shorter);
  // One that takes nothing says that the crown was drawn too small, not that the tree is clear.
  if (best !== null && best.option.doseShare > 0) return inOneVisit(given, inPlace(best, best), best);
  const staged =
    shorter.length === 0 ? null : stagedCure(subject, conflicts, shorter, limitShare, firstShare, standard, "short");
  if (staged === null || staged.candidate === null) return null;
  return done(inPlace(staged.candidate, staged.replaced), staged.candidate, staged.stages);
}

function inOneVisit(given: Together, candidates: readonly Candidate[], best: Candidate): ClearancePlan {
  const { subject, firstShare, standard } = given;
  return done(
    candidates,
    best,
    divideIntoStages(subject, best.cuts, () => firstShare, standard, best.option.doseShare).stages,
  );
}

function visitsOf(staged: StagedCure, candidates: readonly Candidate[]): ClearancePlan | null {
  if (staged.candidate === null) return null;
  const { replaced, candidate, stages } = staged;
  const kept = candidates.map((one) => (one === replaced ? candidate : one));
  return done(kept, candidate, stages);
}

/** Whether a hazard stays open after the first of several visits. */
const leavesHazard = ({ stages }: ClearancePlan): boolean =>
  stages[0]?.open.some((cut) => isHazard(cut.conflict)) ?? false;

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

/** The limit of the option that comes nearest to being allowed: of what is allowed but too brief, of those a dose forbids, else the first. */
function nearestLimit(candidates: readonly Candidate[]): RuledOut | null {
  const limits = candidates.flatMap(({ ruledOut }) => (ruledOut === null ? [] : [ruledOut]));
  const first = (of: RuledOut["limit"]) => limits.find(({ limit }) => limit === of);
  return first("brief") ?? first("dose") ?? limits[0] ?? null;
}
