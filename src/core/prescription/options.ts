import { liveCrownRatio } from "../crown/crown.ts";
import { type Dose, doseShare } from "../crown/dose.ts";
import type { Conflict } from "../model/conflict.ts";
import type { PruningOption } from "../model/prescription.ts";
import type { ClearanceRemedy } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { formatShare } from "../units/format-length.ts";
import { type Cut, cutFor, isConifer, isHeadroom, isWoody, remedyFor, type Subject, yearsAtClearTo } from "./cut.ts";
import { LARGEST_LIMB_SHARE } from "./limb.ts";
import { subjectDose } from "./subject-dose.ts";

export interface RuledOut {
  readonly limit: "dose" | "live-crown" | "limb" | "form";
  /** In words. */
  readonly reason: string;
}

/** An option with what it cuts, for tasks and stages. */
export interface Candidate {
  readonly option: PruningOption;
  readonly cuts: readonly Cut[];
  readonly ruledOut: RuledOut | null;
}

const REMEDIES_IN_ORDER: readonly ClearanceRemedy[] = ["shorten", "remove-limb", "lift"];
/** Steps in years between the targets that are tried. */
const STEP_YEARS = 0.5;
/** Conifers are not cut back deeper than this share of a limb, where they carry no needles; our policy. */
export const CONIFER_DEPTH_SHARE = 1 / 3;
/** Rounding in sums of shares; a dose that equals its limit is allowed. */
const ROUNDING = 1e-9;

/**
 * All ways to cure a tree's conflicts together, one a remedy that at least one conflict admits, in the order shorten, remove limb,
 * lift. Each reaches as far as its limits allow: the clear-to, or as much more as makes the cure last until the next cycle. One
 * that breaks a limit at the clear-to already is kept with the limit's words.
 */
export function computeOptions(
  subject: Subject,
  conflicts: readonly Conflict[],
  limitShare: number,
  standard: Standard,
): Candidate[] {
  return REMEDIES_IN_ORDER.filter((remedy) => conflicts.some((conflict) => conflict.admits.includes(remedy))).map(
    (remedy) => bestTarget(subject, conflicts, remedy, limitShare, standard),
  );
}

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
): Candidate {
  const cuts = conflicts.map((conflict) => cutFor(subject, conflict, remedyFor(conflict, remedy), years, standard));
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
  const shortenM = cuts.reduce((most, cut) => Math.max(most, cut.shortenM), 0);
  return {
    cuts,
    ruledOut,
    option: {
      remedy,
      liftToM: lifted.length === 0 ? null : lifted.reduce((most, cut) => Math.max(most, cut.belowM), 0),
      shortenM: shortenM > 0 ? shortenM : null,
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
): Candidate {
  const { cycleYears } = standard.pruning;
  const leastYears = conflicts.reduce(
    (least, conflict) => Math.min(least, yearsAtClearTo(conflict, remedyFor(conflict, remedy), standard)),
    cycleYears,
  );
  const at = (years: number) => candidateFor(subject, conflicts, remedy, years, limitShare, standard);
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

/** Live crown ratio with the lowest live branch all round: only a cut that goes all round to the trunk raises it. */
function liveCrownRatioAfter(subject: Subject, cuts: readonly Cut[]): number {
  const { crown } = subject;
  let baseM = crown.crownBaseM;
  for (const cut of cuts) {
    const takesAll =
      cut.region.lowM <= crown.crownBaseM &&
      cut.region.fromM.every((fromM, ray) => fromM <= 0 || subject.radiiM[ray]! <= 0);
    if (takesAll) baseM = Math.max(baseM, Math.min(cut.belowM, crown.heightM));
  }
  return liveCrownRatio(crown.heightM, baseM);
}

function limitBroken(
  subject: Subject,
  cuts: readonly Cut[],
  dose: Dose,
  liveAfter: number,
  limitShare: number,
  standard: Standard,
): RuledOut | null {
  return (
    formLimit(subject, cuts) ??
    liveCrownLimit(subject, liveAfter, standard) ??
    limbLimit(subject, cuts) ??
    doseLimitBroken(dose, limitShare)
  );
}

function formLimit(subject: Subject, cuts: readonly Cut[]): RuledOut | null {
  const { tree, crown } = subject;
  if (!isWoody(tree) && cuts.some((cut) => cut.remedy !== "shorten")) {
    return { limit: "form", reason: "shrubs and hedges are trimmed at the side or kept low, never lifted" };
  }
  if (tree.form === "palm") {
    const horizontalM = (crown.heightM + crown.crownBaseM) / 2;
    if (cuts.some((cut) => cut.remedy === "shorten" || cut.belowM > horizontalM)) {
      return { limit: "form", reason: "palms lose only whole fronds below the horizontal" };
    }
  }
  if (isConifer(tree) && cuts.some((cut) => cut.shortenShare > CONIFER_DEPTH_SHARE + ROUNDING)) {
    return { limit: "form", reason: "conifers are not cut back into bare wood: deeper than a third of the branch" };
  }
  return null;
}

function liveCrownLimit(subject: Subject, after: number, standard: Standard): RuledOut | null {
  const { tree, crown } = subject;
  if (!isWoody(tree) || tree.form === "palm") return null;
  const before = liveCrownRatio(crown.heightM, crown.crownBaseM);
  const least = Math.min(before, standard.pruning.liveCrownRatio);
  if (after >= least - ROUNDING) return null;
  return {
    limit: "live-crown",
    reason:
      after > 0
        ? `would leave live crown on ${formatShare(after)} of the height; at least ${formatShare(least)} must stay`
        : `would leave no live crown; at least ${formatShare(least)} of the height must stay`,
  };
}

function limbLimit(subject: Subject, cuts: readonly Cut[]): RuledOut | null {
  if (!isWoody(subject.tree) || subject.tree.form === "palm") return null;
  if (cuts.every((cut) => cut.limbShare <= LARGEST_LIMB_SHARE + ROUNDING)) return null;
  return { limit: "limb", reason: "would take limbs thicker than half the stem, by our estimate of limb size" };
}

function doseLimitBroken(dose: Dose, limitShare: number): RuledOut | null {
  if (doseShare(dose) <= limitShare + ROUNDING) return null;
  return {
    limit: "dose",
    reason: `takes ${formatShare(doseShare(dose))} of the live crown; at most ${formatShare(limitShare)} is allowed in one season`,
  };
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
