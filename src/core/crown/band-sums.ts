import type { Habit } from "../model/terms.ts";
import { highestAt, lowestAt } from "./profile.ts";
import { inverseSquaredShareBetween, squaredShareBelow } from "./profile-integral.ts";
import { BELOW_HIGH, BELOW_LOW, ENTRY_NUMBERS, FROM_SHARE, HIGH_U, LOW_U, WEIGHT } from "./ray-entries.ts";

/** Nearer to the trunk than this share of the radius lies less than 1e-12 of a section; the closed forms lose their digits there. */
const AT_THE_TRUNK = 1e-6;

/** Places of the numbers of {@link BandSums}. */
const VOLUME = 0;
const LEAF = 1;
const VOLUME_WITHIN = 2;
const LEAF_WITHIN = 3;
const FROM_U = 4;
const TO_U = 5;
const BELOW_FROM = 6;
const BELOW_TO = 7;

/**
 * Sums what is taken of rays in bands of heights, by volume and by leaf, in units where a whole ray holds its squared radius times the integral of
 * f^2. What a band holds nearer to the trunk than a share s of the radius is the integral of min(s, f)^2 by volume and of min(s, f)^4 / f^2 by leaf.
 */
export class BandSums {
  /** In one typed array, as a number in a field of its own is made anew each time it changes. */
  readonly #numbers = new Float64Array(8);
  #habit: Habit = "ellipsoid";

  get volume(): number {
    return this.#numbers[VOLUME]!;
  }

  get leaf(): number {
    return this.#numbers[LEAF]!;
  }

  begin(habit: Habit): void {
    this.#habit = habit;
    this.#numbers[VOLUME] = 0;
    this.#numbers[LEAF] = 0;
  }

  beginBand(fromU: number, toU: number): void {
    const numbers = this.#numbers;
    numbers[FROM_U] = fromU;
    numbers[TO_U] = toU;
    numbers[BELOW_FROM] = squaredShareBelow(this.#habit, fromU);
    numbers[BELOW_TO] = squaredShareBelow(this.#habit, toU);
  }

  /** Adds entries of rays that are all taken to the crown's edge. */
  addToEdge(entries: Float64Array, length: number): void {
    const numbers = this.#numbers;
    const habit = this.#habit;
    const fromU = numbers[FROM_U]!;
    const toU = numbers[TO_U]!;
    const belowFrom = numbers[BELOW_FROM]!;
    const belowTo = numbers[BELOW_TO]!;
    const bandShare = belowTo - belowFrom;
    let inverseOfBand = -1;
    let volume = numbers[VOLUME]!;
    let leaf = numbers[LEAF]!;
    for (let at = 0; at < length; at += ENTRY_NUMBERS) {
      const share = entries[at + FROM_SHARE]!;
      if (share > 1) continue;
      const weight = entries[at + WEIGHT]!;
      if (share < AT_THE_TRUNK) {
        const whole = weight * bandShare;
        volume += whole;
        leaf += whole;
        continue;
      }
      const lowU = entries[at + LOW_U]!;
      const highU = entries[at + HIGH_U]!;
      let wideFromU = fromU;
      let belowWideFrom = belowFrom;
      if (lowU > fromU) {
        wideFromU = Math.min(lowU, toU);
        belowWideFrom = lowU < toU ? entries[at + BELOW_LOW]! : belowTo;
      }
      let wideToU = toU;
      let belowWideTo = belowTo;
      if (highU < toU) {
        wideToU = Math.max(highU, wideFromU);
        belowWideTo = highU > wideFromU ? entries[at + BELOW_HIGH]! : belowWideFrom;
      }
      const narrow = belowWideFrom - belowFrom + belowTo - belowWideTo;
      const squared = share * share;
      let leafWithin = narrow;
      if (wideToU > wideFromU) {
        let inverse: number;
        if (wideFromU === fromU && wideToU === toU) {
          if (inverseOfBand < 0) inverseOfBand = inverseSquaredShareBetween(habit, fromU, toU);
          inverse = inverseOfBand;
        } else inverse = inverseSquaredShareBetween(habit, wideFromU, wideToU);
        leafWithin = narrow + squared * squared * inverse;
      }
      volume += weight * (bandShare - (narrow + squared * (wideToU - wideFromU)));
      leaf += weight * (bandShare - leafWithin);
    }
    numbers[VOLUME] = volume;
    numbers[LEAF] = leaf;
  }

  /** Adds a span between two shares of a ray's radius; from 1 on it reaches the crown's edge. */
  addSpan(inner: number, outer: number, weight: number): void {
    const numbers = this.#numbers;
    const bandShare = numbers[BELOW_TO]! - numbers[BELOW_FROM]!;
    this.#within(inner);
    const innerVolume = numbers[VOLUME_WITHIN]!;
    const innerLeaf = numbers[LEAF_WITHIN]!;
    if (outer >= 1) {
      numbers[VOLUME]! += weight * (bandShare - innerVolume);
      numbers[LEAF]! += weight * (bandShare - innerLeaf);
    } else {
      this.#within(outer);
      numbers[VOLUME]! += weight * (numbers[VOLUME_WITHIN]! - innerVolume);
      numbers[LEAF]! += weight * (numbers[LEAF_WITHIN]! - innerLeaf);
    }
  }

  #within(share: number): void {
    const numbers = this.#numbers;
    if (share < AT_THE_TRUNK) {
      numbers[VOLUME_WITHIN] = 0;
      numbers[LEAF_WITHIN] = 0;
      return;
    }
    const habit = this.#habit;
    const toU = numbers[TO_U]!;
    const wideFromU = Math.max(numbers[FROM_U]!, Math.min(toU, lowestAt(habit, share)));
    const wideToU = Math.max(wideFromU, Math.min(toU, highestAt(habit, share)));
    const belowWideFrom = squaredShareBelow(habit, wideFromU);
    const narrow = belowWideFrom - numbers[BELOW_FROM]! + numbers[BELOW_TO]! - squaredShareBelow(habit, wideToU);
    const squared = share * share;
    numbers[VOLUME_WITHIN] = narrow + squared * (wideToU - wideFromU);
    numbers[LEAF_WITHIN] =
      wideToU > wideFromU ? narrow + squared * squared * inverseSquaredShareBetween(habit, wideFromU, wideToU) : narrow;
  }
}
