import { liveCrownRatio } from "../crown/crown.ts";
import { doseShare } from "../crown/dose.ts";
import { type Conflict, RAY_COUNT } from "../model/conflict.ts";
import type { PruningOption } from "../model/prescription.ts";
import type { ClearanceRemedy } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { LEAST_YEARS, type Reach, yearsAtClearTo } from "./clearance-target.ts";
import { type Cut, cutFor, remedyFor, type Subject } from "./cut.ts";
import { isHeadroom } from "./kinds.ts";
import { limitBroken, type RuledOut } from "./limits.ts";
import { subjectDose } from "./subject-dose.ts";

/** An option with what it cuts, for tasks and stages. */
export interface Candidate {
  readonly option: PruningOption;
  readonly cuts: readonly Cut[];
  readonly ruledOut: RuledOut | null;
}

const REMEDIES_IN_ORDER: readonly ClearanceRemedy[] = ["shorten", "remove-limb", "lift"];
/** Steps in years between the targets that are tried. */
const STEP_YEARS = 0.5;
/** Rounding in sums of shares; a dose that equals its limit is allowed. */
const ROUNDING = 1e-9;

/**
 * All ways to cure a tree's conflicts together, one a remedy that at least one conflict admits, in the order shorten, remove limb,
 * lift. Each reaches as far as its limits allow: the clear-to, or as much more as makes the cure last until the next cycle. One
 * that breaks a limit at the clear-to already is kept with the limit's words. With `reach` short, each begins where the minimum holds for
 * a year wherever it may stop short of the clear-to.
 */
export function computeOptions(
  subject: Subject,
  conflicts: readonly Conflict[],
  limitShare: number,
  standard: Standard,
  reach: Reach = "clear-to",
): Candidate[] {
  return (
    REMEDIES_IN_ORDER.filter((remedy) => conflicts.some((conflict) => conflict.admits.includes(remedy)))
      .map((remedy) => bestTarget(subject, conflicts, remedy, limitShare, standard, reach))
      // Leaders are cut back to laterals whatever the remedy: by themselves they make one option.
      .filter(({ cuts, option }) => option.remedy === "shorten" || cuts.some(({ leaders }) => leaders === undefined))
  );
}

/** The candidates that last as long as a visit is worth; what limits allow beside them is ruled out as too brief. */
export const withBriefRuledOut = (candidates: readonly Candidate[]): Candidate[] =>
  candidates.map((candidate) =>
    candidate.ruledOut !== null || candidate.option.lastsYears >= LEAST_YEARS - ROUNDING
      ? candidate
      : { ...candidate, ruledOut: TOO_BRIEF, option: { ...candidate.option, ruledOutBy: TOO_BRIEF.reason } },
  );

const TOO_BRIEF: RuledOut = {
  limit: "brief",
  reason: "within the limits it would last less than a year, and nobody is sent for that where there is no hazard",
};

/**
 * The allowed candidate with the least dose per year cleared; the earlier remedy on a tie. Null when all are ruled out. One that finds
 * no branch to take is no cure as long as another does.
 */
export function lightest(candidates: readonly Candidate[]): Candidate | null {
  const takesSome = candidates.some(({ option, ruledOut }) => ruledOut === null && option.doseShare > 0);
  let best: Candidate | null = null;
  for (const candidate of candidates) {
    if (candidate.ruledOut !== null || (takesSome && candidate.option.doseShare <= 0)) continue;
    if (best === null || candidate.option.dosePerYear < best.option.dosePerYear - ROUNDING) best = candidate;
  }
  return best;
}

/** One option at the target that holds for the given years, with the limit that rules it out, if any. */
export function candidateFor(
  subject: Subject,
  conflicts: readonly Conflict[],
  remedy: ClearanceRemedy,
  years: number,
  limitShare: number,
  standard: Standard,
  reach: Reach = "clear-to",
): Candidate {
  const cuts = conflicts.map((conflict) =>
    cutFor(subject, conflict, remedyFor(conflict, remedy), years, standard, reach),
  );
  return candidateOf(subject, cuts, remedy, years, limitShare, standard);
}

/** The option that a set of cuts amounts to. */
export function candidateOf(
  subject: Subject,
  cuts: readonly Cut[],
  remedy: ClearanceRemedy,
  lastsYears: number,
  limitShare: number,
  standard: Standard,
): Candidate {
  const dose = subjectDose(
    subject,
    cuts.map((cut) => cut.region),
  );
  const liveAfter = liveCrownRatioAfter(subject, cuts);
  const ruledOut = limitBroken(subject, cuts, dose, liveAfter, limitShare, standard);
  // Limbs taken off over a roof leave the lowest ones where they are.
  const lifted = cuts.filter(
    ({ remedy: by, conflict: { kind } }) =>
      by === "lift" || (by === "remove-limb" && isHeadroom(kind) && kind !== "building-roof"),
  );
  const shortenM = cuts.reduce((most, cut) => Math.max(most, cut.leaders === undefined ? cut.shortenM : 0), 0);
  const leadersToM = leadersDownToM(cuts);
  return {
    cuts,
    ruledOut,
    option: {
      remedy,
      liftToM: lifted.length === 0 ? null : lifted.reduce((most, cut) => Math.max(most, cut.belowM), 0),
      shortenM: shortenM > 0 ? shortenM : null,
      ...(leadersToM === null ? {} : { leadersToM }),
      doseByVolumeShare: dose.volumeShare,
      doseByLeafShare: dose.leafShare,
      doseShare: doseShare(dose),
      limbDiameterM: limbRange(cuts),
      lastsYears,
      liveCrownRatioAfter: liveAfter,
      dosePerYear: doseShare(dose) / Math.max(lastsYears, STEP_YEARS),
      ruledOutBy: ruledOut?.reason ?? null,
    },
  };
}

function bestTarget(
  subject: Subject,
  conflicts: readonly Conflict[],
  remedy: ClearanceRemedy,
  limitShare: number,
  standard: Standard,
  reach: Reach,
): Candidate {
  const { cycleYears } = standard.pruning;
  const leastYears = conflicts.reduce(
    (least, conflict) => Math.min(least, yearsAtClearTo(conflict, remedyFor(conflict, remedy), standard, reach)),
    cycleYears,
  );
  const at = (years: number) => candidateFor(subject, conflicts, remedy, years, limitShare, standard, reach);
  const longest = at(cycleYears);
  if (leastYears >= cycleYears) return withTargets(longest, [longest]);
  const least = at(leastYears);
  if (longest.ruledOut === null) return withTargets(longest, [least, longest]);
  if (least.ruledOut !== null) return withTargets(least, [least, longest]);
  let best = least;
  // What is taken grows with the years, so the last allowed step is found by halving.
  let allowed = 0;
  let refused = Math.ceil((cycleYears - leastYears) / STEP_YEARS);
  while (refused - allowed > 1) {
    const step = (allowed + refused) >> 1;
    const tried = at(leastYears + step * STEP_YEARS);
    if (tried.ruledOut === null) {
      best = tried;
      allowed = step;
    } else refused = step;
  }
  return withTargets(best, best === least ? [least, longest] : [least, best, longest]);
}

/** The candidate with what it costs at each of some targets. */
export function withTargets(candidate: Candidate, targets: readonly Candidate[]): Candidate {
  return {
    ...candidate,
    option: {
      ...candidate.option,
      targets: targets.map(({ option: { lastsYears, doseShare, ruledOutBy } }) => ({
        lastsYears,
        doseShare,
        ruledOutBy,
      })),
    },
  };
}

/** Height in meters that leaders come down to; null where none do. */
const leadersDownToM = (cuts: readonly Cut[]): number | null =>
  cuts.reduce<number | null>(
    (lowest, { leaders }) => (leaders === undefined ? lowest : Math.min(lowest ?? leaders.toM, leaders.toM)),
    null,
  );

/**
 * Live crown ratio from the lowest live branch on any side: only cuts that together go all round to the trunk raise it. Leaders that come down
 * take their share from the top.
 */
function liveCrownRatioAfter(subject: Subject, cuts: readonly Cut[]): number {
  const { crown } = subject;
  const heightM = Math.min(crown.heightM, leadersDownToM(cuts) ?? crown.heightM);
  let baseM = crown.crownBaseM;
  // Each turn rises to the end of a cut, so there are no more turns than cuts.
  for (let turn = 0; turn < cuts.length; turn += 1) {
    const nextM = barUpToM(subject, cuts, baseM);
    if (!(nextM > baseM)) break;
    baseM = nextM;
  }
  return liveCrownRatio(heightM, Math.min(baseM, heightM));
}

/** Height up to which no ray keeps foliage from a height on; that height itself where some ray does. */
function barUpToM({ crown, radiiM }: Subject, cuts: readonly Cut[], fromM: number): number {
  const there = cuts.filter(({ region, leaders }) => !leaders && region.lowM <= fromM && region.highM > fromM);
  let upToM = there.length === 0 ? fromM : crown.heightM;
  for (let ray = 0; ray < RAY_COUNT && upToM > fromM; ray += 1) {
    if (radiiM[ray]! <= 0) continue;
    let barM = fromM;
    for (const { region } of there) if (region.fromM[ray]! <= 0) barM = Math.max(barM, region.highM);
    upToM = Math.min(upToM, barM);
  }
  return upToM;
}

function limbRange(cuts: readonly Cut[]): readonly [number, number] {
  let thinnestM = Number.POSITIVE_INFINITY;
  let thickestM = 0;
  for (const { limbDiameterM } of cuts) {
    if (limbDiameterM[1] === 0) continue;
    thinnestM = Math.min(thinnestM, limbDiameterM[0]);
    thickestM = Math.max(thickestM, limbDiameterM[1]);
  }
  return thickestM === 0 ? [0, 0] : [thinnestM, thickestM];
}
