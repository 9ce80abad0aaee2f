import { relativeHeight } from "../crown/crown.ts";
import { squaredShareBelow } from "../crown/profile-integral.ts";
import type { Cut, Subject } from "./cut.ts";
import { heightSpan, isByHeight } from "./part-of-cut.ts";

/** Steps that the progress through all cuts is divided into: a stage is within a thousandth of a cut of its limit. */
const STEPS = 2 ** 14;
/** Estimates of the step that is looked for, before the rest is halved. */
const MOST_ESTIMATES = 8;

type DoseOf = (done: readonly number[]) => number;
/** Whether a dose may be taken; of whole cuts or not. */
type IsAllowed = (dose: number, isWhole: boolean) => boolean;

/**
 * Finds how far a stage gets through cuts in their order: whole ones, then a part of one, in {@link STEPS} steps. What is taken grows with the progress,
 * so the last allowed step is the same however it is looked for: first the cut it lies in, and in one that goes by height, where what is taken
 * grows nearly as the crown below that height, the step that this says, then those beside it. Of tips, whose dose can jump a little where an edge
 * begins to cross rays steeply, the step is found by halving.
 */
export class ProgressSearch {
  readonly #subject: Subject;
  readonly #cuts: readonly Cut[];

  constructor(subject: Subject, cuts: readonly Cut[]) {
    this.#subject = subject;
    this.#cuts = cuts;
  }

  /** Shares of the cuts that are done at the last allowed step, where `found` were done before; `mostShare` is about the dose that is allowed. */
  farthest(found: readonly number[], doseOf: DoseOf, isAllowed: IsAllowed, mostShare: number): readonly number[] {
    const { length } = found;
    const whole = doneAt(found, length);
    if (isAllowed(doseOf(whole), isWhole(whole))) return whole;
    let low = 0;
    let high = length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      const done = doneAt(found, middle);
      if (isAllowed(doseOf(done), isWhole(done))) low = middle;
      else high = middle;
    }
    const fromStep = Math.floor((low * STEPS) / length);
    const toStep = Math.ceil((high * STEPS) / length);
    const step = isByHeight(this.#cuts[low]!)
      ? this.#byHeight(found, low, fromStep, toStep, doseOf, isAllowed, mostShare)
      : lastByHalving(0, STEPS, (middle) => {
          if (middle <= fromStep || middle >= toStep) return middle <= fromStep;
          const done = doneAt(found, (length * middle) / STEPS);
          return isAllowed(doseOf(done), isWhole(done));
        });
    return doneAt(found, (length * step) / STEPS);
  }

  #byHeight(
    found: readonly number[],
    cutAt: number,
    fromStep: number,
    toStep: number,
    doseOf: DoseOf,
    isAllowed: IsAllowed,
    mostShare: number,
  ): number {
    const { length } = found;
    const doneIn = (step: number) => doneAt(found, (length * step) / STEPS);
    const below = this.#crownBelow(found, cutAt);
    let low = fromStep;
    let high = toStep;
    let lowDose = doseOf(doneAt(found, cutAt));
    let highDose = doseOf(doneAt(found, cutAt + 1));
    let lowBelow = below(low);
    let highBelow = below(high);
    for (let estimate = 0; high - low > 1 && estimate < MOST_ESTIMATES; estimate += 1) {
      const share = (mostShare - lowDose) / (highDose - lowDose);
      const guess = lastBelow(low, high, below, lowBelow + share * (highBelow - lowBelow));
      const step = Math.min(high - 1, Math.max(low + 1, guess));
      const done = doneIn(step);
      const dose = doseOf(done);
      if (isAllowed(dose, isWhole(done))) [low, lowDose, lowBelow] = [step, dose, below(step)];
      else [high, highDose, highBelow] = [step, dose, below(step)];
    }
    return lastByHalving(low, high, (step) => {
      const done = doneIn(step);
      return isAllowed(doseOf(done), isWhole(done));
    });
  }

  /** The crown below the height that a cut has got to at a step, in the units of its integral. */
  #crownBelow(found: readonly number[], cutAt: number): (step: number) => number {
    const { crown } = this.#subject;
    const { lowM, highM } = heightSpan(this.#subject, this.#cuts[cutAt]!);
    const { length } = found;
    return (step) => {
      const share = Math.max(found[cutAt]!, Math.min(1, Math.max(0, (length * step) / STEPS - cutAt)));
      return squaredShareBelow(crown.habit, relativeHeight(crown, lowM + (highM - lowM) * share));
    };
  }
}

/** Cuts done at a progress: as many whole ones as its integer part, the next one in part, the others as they were found. */
const doneAt = (found: readonly number[], progress: number): number[] =>
  found.map((share, at) => Math.max(share, Math.min(1, Math.max(0, progress - at))));

const isWhole = (done: readonly number[]): boolean => done.every((share) => share >= 1);

/** The last step from `low` on, itself allowed, that is allowed, where `high` is not. */
function lastByHalving(low: number, high: number, isAllowed: (step: number) => boolean): number {
  let allowed = low;
  let refused = high;
  while (refused - allowed > 1) {
    const middle = (allowed + refused) >> 1;
    if (isAllowed(middle)) allowed = middle;
    else refused = middle;
  }
  return allowed;
}

/** The last step from `low` up to `high` with at most so much of the crown below it. */
const lastBelow = (low: number, high: number, below: (step: number) => number, most: number): number =>
  lastByHalving(low, high, (step) => below(step) <= most);
