import { doseShare } from "../crown/dose.ts";
import type { RemovalRegion } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import type { Cut, Subject } from "./cut.ts";
import { partOf, regionOfPart, shareLostPerYear } from "./part-of-cut.ts";
import { ProgressSearch } from "./progress-search.ts";
import { subjectDose } from "./subject-dose.ts";

/** What one visit takes off, with each cut's part of its dose. */
export interface StageCuts {
  readonly parts: readonly StagePart[];
  /** Share of the live crown the tree has at that visit. */
  readonly doseShare: number;
  /** The same as a share of the crown before the first visit. */
  readonly ofWholeShare: number;
  /** Cuts that are not complete after it. */
  readonly open: readonly Cut[];
}

export interface StagePart {
  readonly cut: Cut;
  readonly doseShare: number;
  /** Whether only what has grown back since the visit before comes off. */
  readonly isRegrowth: boolean;
}

export interface Staging {
  readonly stages: readonly StageCuts[];
  /** Whether every cut is complete after the last stage. */
  readonly isComplete: boolean;
  /** The first cut that is not, as far as it got; null when complete or when it was not begun. */
  readonly farthest: Cut | null;
}

/**
 * Years between stages, in which cuts lose clearance: a stage follows at least twelve months after a window has ended, in the next one, so
 * that between one and two years lie between them; the middle.
 */
const YEARS_BETWEEN = 1.5;
const ROUNDING = 1e-9;
/** A cut that adds less than this to the others of a visit has been done with them: rounding of doses, a hundredth of a percent. */
const ADDS_NOTHING = 1e-4;

/**
 * Divides cuts, in the given order, over as many seasons as their dose needs: each stage goes as far as its limit, counted on the
 * crown that it finds. What was cut before has grown back in part by then (regrowth by kind of cut, droop), is cut again first, and
 * counts again: all stages together stay under the standard's ceiling over years and number of stages. It stops where a stage
 * would get no farther than regrowth takes back. One stage when the limit holds all. `wholeShare` is the dose of all cuts together, where it is
 * known already.
 */
export function divideIntoStages(
  subject: Subject,
  cuts: readonly Cut[],
  limitShares: (stage: number) => number,
  standard: Standard,
  wholeShare?: number,
): Staging {
  const { maxStages, multiYearCeilingShare } = standard.pruning;
  const lost = cuts.map((cut) => shareLostPerYear(subject, cut, standard) * YEARS_BETWEEN);
  const doseOf = rememberedDoses(subject, cuts, wholeShare);
  const search = new ProgressSearch(subject, cuts);
  const stages: StageCuts[] = [];
  let done: readonly number[] = cuts.map(() => 0);
  let total = 0;
  while (stages.length < maxStages && !isComplete(done)) {
    const found = stages.length === 0 ? done : done.map((share, at) => Math.max(0, share - lost[at]!));
    const foundDose = doseOf(found);
    const limit = limitShares(stages.length);
    const left = Math.max(ROUNDING, 1 - foundDose);
    // A single visit is bound by its season's limit alone.
    const isFirst = stages.length === 0;
    const isAllowed = (dose: number, isWhole: boolean) => {
      const taken = dose - foundDose;
      return (
        taken / left <= limit + ROUNDING && ((isFirst && isWhole) || total + taken <= multiYearCeilingShare + ROUNDING)
      );
    };
    const mostShare = foundDose + Math.min((limit + ROUNDING) * left, multiYearCeilingShare + ROUNDING - total);
    const farthest = search.farthest(found, doseOf, isAllowed, mostShare);
    const reached = withWhatGoesAlong(farthest, doseOf);
    if (!isComplete(reached) && !getsFarther(done, reached, lost)) break;
    const taken = Math.max(0, doseOf(reached) - foundDose);
    stages.push({
      parts: partsBetween(subject, cuts, found, reached, done, doseOf),
      doseShare: taken / Math.max(ROUNDING, 1 - foundDose),
      ofWholeShare: taken,
      open: cuts.filter((_, at) => reached[at]! < 1),
    });
    total += taken;
    done = reached;
  }
  const first = done.findIndex((share) => share < 1);
  return {
    stages,
    isComplete: first < 0,
    farthest: first < 0 || done[first]! <= 0 ? null : partOf(subject, cuts[first]!, done[first]!),
  };
}

/** All doses of a plan together, regrowth that is cut again included, as a share of the crown before the first visit. */
export const totalDoseShare = (stages: readonly StageCuts[]): number =>
  stages.reduce((sum, { ofWholeShare }) => sum + ofWholeShare, 0);

const isComplete = (done: readonly number[]): boolean => done.every((share) => share >= 1);

/** The share of the crown that cuts done so far take; the same progress is asked for again and again while a stage is looked for and told. */
function rememberedDoses(
  subject: Subject,
  cuts: readonly Cut[],
  wholeShare: number | undefined,
): (done: readonly number[]) => number {
  const known: { readonly done: readonly number[]; readonly dose: number }[] = [];
  if (wholeShare !== undefined) known.push({ done: cuts.map(() => 1), dose: wholeShare });
  return (done) => {
    for (const one of known) if (isSame(one.done, done)) return one.dose;
    const dose = doseShare(subjectDose(subject, begunRegions(subject, cuts, done)));
    known.push({ done: [...done], dose });
    return dose;
  };
}

function isSame(one: readonly number[], other: readonly number[]): boolean {
  for (let at = 0; at < one.length; at += 1) if (one[at] !== other[at]) return false;
  return true;
}

/** Cuts of which the others leave nothing are done with them, as a walk's under a street's. */
function withWhatGoesAlong(reached: readonly number[], doseOf: (done: readonly number[]) => number): number[] {
  let dose: number | null = null;
  const done = [...reached];
  for (let at = 0; at < done.length; at += 1) {
    if (done[at]! >= 1) continue;
    dose ??= doseOf(reached);
    if (dose > 0 && doseOf(done.map((share, other) => (other === at ? 1 : share))) - dose < ADDS_NOTHING) done[at] = 1;
  }
  return done;
}

/** Whether a stage ends farther than the one before: the cut it stops in gains more than it loses until the next season. */
function getsFarther(before: readonly number[], reached: readonly number[], lost: readonly number[]): boolean {
  const at = reached.findIndex((share) => share < 1);
  if (at < 0) return true;
  const sumOf = (shares: readonly number[]) => shares.slice(0, at).reduce((sum, share) => sum + share, 0);
  return sumOf(reached) > sumOf(before) + ROUNDING || reached[at]! - before[at]! > lost[at]!;
}

/** What a stage does to each cut; the dose of each is what it adds to those before it. */
function partsBetween(
  subject: Subject,
  cuts: readonly Cut[],
  found: readonly number[],
  reached: readonly number[],
  before: readonly number[],
  doseOf: (done: readonly number[]) => number,
): StagePart[] {
  const parts: StagePart[] = [];
  const done = [...found];
  const foundDose = doseOf(found);
  let soFar = foundDose;
  for (let at = 0; at < cuts.length; at += 1) {
    if (reached[at]! <= found[at]! + ROUNDING && !(reached[at]! >= 1 && before[at]! < 1)) continue;
    done[at] = reached[at]!;
    const dose = doseOf(done);
    parts.push({
      cut: partOf(subject, cuts[at]!, reached[at]!),
      doseShare: Math.max(0, dose - soFar) / Math.max(ROUNDING, 1 - foundDose),
      isRegrowth: before[at]! >= reached[at]! - ROUNDING,
    });
    soFar = Math.max(soFar, dose);
  }
  return parts;
}

function begunRegions(subject: Subject, cuts: readonly Cut[], done: readonly number[]): RemovalRegion[] {
  const regions: RemovalRegion[] = [];
  for (let at = 0; at < cuts.length; at += 1) {
    if (done[at]! > 0) regions.push(regionOfPart(subject, cuts[at]!, Math.min(1, done[at]!)));
  }
  return regions;
}
