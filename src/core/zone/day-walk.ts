import type { Stop } from "./stops.ts";
import type { WaysBetween } from "./ways-between.ts";

/** A day's stops in the order they are walked to, with the ways between them in meters, and what the walk is without each of them. */
export class DayWalk {
  readonly lengthM: number;
  readonly #ways: WaysBetween;
  readonly #numbers: Int32Array;
  /** Way to each stop from the one before it. */
  readonly #stepsM: Float64Array;
  /** Way past each stop, from the one before it to the one behind it. */
  readonly #pastM: Float64Array;

  constructor(stops: readonly Stop[], ways: WaysBetween) {
    const { length } = stops;
    const numbers = Int32Array.from(stops, (stop) => ways.numberOf(stop));
    const stepsM = new Float64Array(length);
    const pastM = new Float64Array(length);
    let totalM = 0;
    for (let at = 1; at < length; at += 1) {
      stepsM[at] = ways.stepOfM(numbers[at - 1]!, numbers[at]!);
      totalM += stepsM[at]!;
      if (at + 1 < length) pastM[at] = ways.stepOfM(numbers[at - 1]!, numbers[at + 1]!);
    }
    this.lengthM = totalM;
    this.#ways = ways;
    this.#numbers = numbers;
    this.#stepsM = stepsM;
    this.#pastM = pastM;
  }

  /** Meters of the walk without the stop at a place. */
  lengthWithoutM(left: number): number {
    const last = this.#numbers.length - 1;
    let totalM = 0;
    for (let at = left === 0 ? 2 : 1; at <= last; at += 1) {
      if (at === left) {
        if (left < last) totalM += this.#pastM[at]!;
        at += 1;
      } else totalM += this.#stepsM[at]!;
    }
    return totalM;
  }

  /** Meters straight from a stop to each of the day's. */
  straightFromM(stop: Stop): Float64Array {
    const from = this.#ways.numberOf(stop);
    const { length } = this.#numbers;
    const straightM = new Float64Array(length);
    for (let at = 0; at < length; at += 1) straightM[at] = this.#ways.straightOfM(from, this.#numbers[at]!);
    return straightM;
  }

  /** A stop so far from each of the day's adds at least so much to the walk without the stop at `left`, as no way is shorter than the straight one. */
  addsAtLeastM(straightM: Float64Array, left: number): number {
    const { length } = straightM;
    let leastM = Number.POSITIVE_INFINITY;
    let before = -1;
    for (let at = 0; at <= length; at += 1) {
      if (at === left) continue;
      let addsM = 0;
      if (before >= 0) addsM += straightM[before]!;
      if (at < length) addsM += straightM[at]!;
      if (before >= 0 && at < length) addsM -= at === before + 1 ? this.#stepsM[at]! : this.#pastM[left]!;
      if (addsM < leastM) leastM = addsM;
      before = at;
    }
    return leastM;
  }
}
