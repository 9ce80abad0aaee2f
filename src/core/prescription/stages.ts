import { doseShare } from "../crown/dose.ts";
import type { RemovalRegion } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import { type Cut, isHeadroom, lossMPerYear, type Subject } from "./cut.ts";
import { subjectDose } from "./subject-dose.ts";

/** What one visit takes off, with each cut's part of its dose. */
export interface StageCuts {
  readonly parts: readonly { readonly cut: Cut; readonly doseShare: number }[];
  /** Share of the live crown the tree has at that visit. */
  readonly doseShare: number;
  /** Cuts that are not complete after it. */
  readonly open: readonly Cut[];
}

export interface Staging {
  readonly stages: readonly StageCuts[];
  /** Whether every cut is complete after the last stage. */
  readonly isComplete: boolean;
  /** The first cut that is not, as far as it got; null when complete or when it was not begun. */
  readonly farthest: Cut | null;
}

/** Seasons between stages, in which cuts lose clearance. */
const YEARS_BETWEEN = 1;
const ROUNDING = 1e-9;
/** Halvings of the progress interval: 14 leave a stage within a thousandth of a cut of its limit. */
const HALVINGS = 14;

/**
 * Divides cuts, in the given order, over as many seasons as their dose needs: each stage goes as far as its limit, counted on the
 * crown that is left, and all together stay under the standard's ceiling over years and number of stages. It stops where a stage would
 * gain less than regrowth takes back before the next. One stage when the limit holds all.
 */
export function divideIntoStages(
  subject: Subject,
  cuts: readonly Cut[],
  limitShares: (stage: number) => number,
  standard: Standard,
): Staging {
  const { maxStages, multiYearCeilingShare } = standard.pruning;
  const doseAt = (progress: number) => doseShare(subjectDose(subject, regionsOf(cutsAt(subject, cuts, progress))));
  const stages: StageCuts[] = [];
  let progress = 0;
  let taken = 0;
  while (stages.length < maxStages && progress < cuts.length) {
    const limit = limitShares(stages.length);
    const isAllowed = (dose: number) =>
      dose <= multiYearCeilingShare + ROUNDING && (dose - taken) / Math.max(ROUNDING, 1 - taken) <= limit + ROUNDING;
    // A single visit is bound by its season's limit alone.
    const whole = doseAt(cuts.length);
    const fits = stages.length === 0 ? whole <= limit + ROUNDING : isAllowed(whole);
    const reached = fits ? cuts.length : lastAllowed(progress, cuts.length, (at) => isAllowed(doseAt(at)));
    if (reached < cuts.length && !outrunsRegrowth(subject, cuts, progress, reached, standard)) break;
    const dose = doseAt(reached);
    stages.push(stageBetween(subject, cuts, progress, reached, taken, dose));
    progress = reached;
    taken = dose;
  }
  const isComplete = progress >= cuts.length;
  const begun = cutsAt(subject, cuts, progress);
  return { stages, isComplete, farthest: isComplete ? null : (begun[Math.floor(progress)] ?? null) };
}

/** Stage from one progress to another; the dose of each cut is what it adds to those before it. */
function stageBetween(
  subject: Subject,
  cuts: readonly Cut[],
  from: number,
  to: number,
  takenBefore: number,
  takenAfter: number,
): StageCuts {
  const left = Math.max(ROUNDING, 1 - takenBefore);
  const worked = cutsAt(subject, cuts, to).slice(Math.floor(from));
  let soFar = takenBefore;
  const parts = worked.map((cut, at) => {
    const isLast = at === worked.length - 1;
    const upTo = Math.min(to, Math.floor(from) + at + 1);
    const dose = isLast ? takenAfter : doseShare(subjectDose(subject, regionsOf(cutsAt(subject, cuts, upTo))));
    const part = Math.max(0, dose - soFar) / left;
    soFar = Math.max(soFar, dose);
    return { cut, doseShare: part };
  });
  return {
    parts,
    doseShare: Math.max(0, takenAfter - takenBefore) / left,
    open: cuts.slice(Math.floor(to + ROUNDING)),
  };
}

function lastAllowed(from: number, to: number, isAllowed: (progress: number) => boolean): number {
  let allowed = from;
  let refused = to;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middle = (allowed + refused) / 2;
    if (isAllowed(middle)) allowed = middle;
    else refused = middle;
  }
  return allowed;
}

/** The cuts begun at a progress: as many whole ones as its integer part, and the next one in part. */
function cutsAt(subject: Subject, cuts: readonly Cut[], progress: number): Cut[] {
  const begun: Cut[] = [];
  for (let at = 0; at < cuts.length && progress > at; at += 1) {
    begun.push(partOf(subject, cuts[at]!, Math.min(1, progress - at)));
  }
  return begun;
}

const regionsOf = (cuts: readonly Cut[]): RemovalRegion[] => cuts.map((cut) => cut.region);

/** The first part of a cut: the lowest limbs where it is counted in height, the tips where it is counted in distance. */
function partOf(subject: Subject, cut: Cut, share: number): Cut {
  if (share >= 1) return cut;
  if (isByHeight(cut)) {
    const { lowM, highM } = heightSpan(subject, cut);
    const partM = lowM + (highM - lowM) * share;
    return {
      ...cut,
      region: { ...cut.region, highM: partM },
      belowM: partM,
      targetM: isHeadroom(cut.conflict.kind) ? cut.targetM - (highM - partM) : cut.targetM,
    };
  }
  const fromM = cut.region.fromM.map((edgeM, ray) =>
    edgeM < Number.POSITIVE_INFINITY ? edgeM + (1 - share) * Math.max(0, cut.limbM[ray]! - edgeM) : edgeM,
  );
  return {
    ...cut,
    region: { ...cut.region, fromM },
    targetM: Math.max(0, cut.targetM - (1 - share) * cut.shortenM),
    shortenM: cut.shortenM * share,
    shortenShare: cut.shortenShare * share,
  };
}

const isByHeight = (cut: Cut): boolean => cut.remedy !== "shorten" || isHeadroom(cut.conflict.kind);

function heightSpan(subject: Subject, cut: Cut): { lowM: number; highM: number } {
  const highM = Math.min(cut.region.highM, subject.crown.heightM);
  return { lowM: Math.min(highM, Math.max(subject.crown.crownBaseM, cut.region.lowM)), highM };
}

/** Whether a stage frees more of the cut it stops in than that cut loses until the next season. */
function outrunsRegrowth(
  subject: Subject,
  cuts: readonly Cut[],
  from: number,
  to: number,
  standard: Standard,
): boolean {
  const cut = cuts[Math.floor(to)];
  if (cut === undefined || Math.floor(to) > Math.floor(from)) return true;
  const { lowM, highM } = heightSpan(subject, cut);
  const gainM = (to - from) * (isByHeight(cut) ? highM - lowM : cut.shortenM);
  return gainM > lossMPerYear(cut.conflict, cut.remedy, standard) * YEARS_BETWEEN;
}
