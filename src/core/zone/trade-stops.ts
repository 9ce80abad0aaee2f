import { hoursOf, mayShareDay } from "./day.ts";
import { DayWalk } from "./day-walk.ts";
import type { FillLimits } from "./fill-days.ts";
import { isLinked } from "./is-linked.ts";
import { isNearEnough, otherness } from "./otherness.ts";
import { LEAST_DAY_SHARE, MOST_DAY_SHARE } from "./split-route.ts";
import type { Stop } from "./stops.ts";

/** Meters of walk that a trade must save, so that days do not change for next to nothing. Our policy. */
const LEAST_SAVING_M = 25;
/** Stops farther than this from a day's are not offered to it. */
const OFFER_M = 150;
const MOST_ROUNDS = 3;
const ROUNDING_H = 1e-9;
/** More than straight ways differ by from plane to plane, meters. */
const ROUNDING_M = 0.1;

/**
 * Days that are walked less because a stop went over to the day beside it, or two days exchanged one each (1-interchange, Osman 1993): what cutting
 * a route into days and filling the short ones leaves to gain. Days are given and kept in an order that is short to walk; only those marked `isOpen`
 * take part. No trade takes a day under three quarters of a crew-day or over 1.1, out of its dates, or apart.
 */
export function tradeStops(
  days: readonly (readonly Stop[])[],
  isOpen: readonly boolean[],
  limits: FillLimits,
): Stop[][] {
  const trading = new Trading(days, isOpen, limits);
  for (let round = 0; round < MOST_ROUNDS && trading.round(); round += 1) {
    // Each trade shortens the walk, of which there are finitely many.
  }
  return trading.days;
}

interface Trade {
  readonly savingM: number;
  readonly days: ReadonlyMap<number, Stop[]>;
}

class Trading {
  readonly days: Stop[][];
  readonly #isOpen: readonly boolean[];
  readonly #limits: FillLimits;
  readonly #dayOf = new Map<Stop, number>();
  /** Walks of the days as they are now, made when they are asked for. */
  readonly #walks: (DayWalk | undefined)[] = [];

  constructor(days: readonly (readonly Stop[])[], isOpen: readonly boolean[], limits: FillLimits) {
    this.days = days.map((stops) => [...stops]);
    this.#isOpen = isOpen;
    this.#limits = limits;
    this.days.forEach((stops, day) => {
      for (const stop of stops) this.#dayOf.set(stop, day);
    });
  }

  /** Offers every stop once; whether any was traded. */
  round(): boolean {
    let isTraded = false;
    const stops = [...this.#dayOf.keys()].sort((a, b) => a.tree.row - b.tree.row);
    for (const stop of stops) {
      const trade = this.#bestTrade(stop);
      if (trade === null) continue;
      isTraded = true;
      for (const [day, members] of trade.days) {
        this.days[day] = members;
        this.#walks[day] = undefined;
        for (const member of members) this.#dayOf.set(member, day);
      }
    }
    return isTraded;
  }

  #bestTrade(stop: Stop): Trade | null {
    const from = this.#dayOf.get(stop)!;
    if (!this.#isOpen[from] || this.days[from]!.length < 2) return null;
    const walk = this.#walkOf(from);
    const savedM = walk.lengthM - walk.lengthWithoutM(this.days[from]!.indexOf(stop));
    if (savedM < LEAST_SAVING_M) return null;
    const rest = this.days[from]!.filter((one) => one !== stop);
    const takers = new Set<number>();
    for (const [other, awayM] of this.#limits.near.around(stop, OFFER_M)) {
      if (awayM <= savedM) takers.add(this.#dayOf.get(other)!);
    }
    let best: Trade | null = null;
    for (const to of takers) {
      if (to === from || !this.#isOpen[to]) continue;
      const given = this.#given(stop, from, to, rest, savedM) ?? this.#exchanged(stop, from, to, rest, savedM);
      if (given !== null && given.savingM >= LEAST_SAVING_M && (best === null || given.savingM > best.savingM))
        best = given;
    }
    return best;
  }

  /** The stop alone goes over. */
  #given(stop: Stop, from: number, to: number, rest: Stop[], savedM: number): Trade | null {
    const taker = this.days[to]!;
    if (!this.#hasHours(rest) || !this.#mayTake(taker, stop) || !this.#isLinked(rest)) return null;
    const [members, costM] = this.#inserted(taker, stop);
    const savingM = savedM - costM - Math.max(0, otherness(stop, taker) - otherness(stop, rest));
    return {
      savingM,
      days: new Map([
        [from, rest],
        [to, members],
      ]),
    };
  }

  /** The stop goes over and one of the other day's comes back. */
  #exchanged(stop: Stop, from: number, to: number, rest: Stop[], savedM: number): Trade | null {
    const taker = this.days[to]!;
    if (taker.length < 2) return null;
    const walk = this.#walkOf(from);
    const takerWalk = this.#walkOf(to);
    const takerM = takerWalk.lengthM;
    const place = this.days[from]!.indexOf(stop);
    const awayM = takerWalk.straightFromM(stop);
    let best: Trade | null = null;
    for (let at = 0; at < taker.length; at += 1) {
      const other = taker[at]!;
      const leftM = takerWalk.lengthWithoutM(at);
      // Most exchanges are out of the question by the straight ways alone.
      const leastM = (best?.savingM ?? LEAST_SAVING_M) - ROUNDING_M;
      const mostM = savedM + takerM - leftM - takerWalk.addsAtLeastM(awayM, at);
      if (mostM < leastM || mostM - walk.addsAtLeastM(walk.straightFromM(other), place) < leastM) continue;
      const left = taker.filter((one) => one !== other);
      const [members, costM] = this.#inserted(left, stop);
      const [back, backM] = this.#inserted(rest, other);
      const mixingM = otherness(stop, left) - otherness(stop, rest) + otherness(other, rest) - otherness(other, left);
      const savingM = savedM + takerM - leftM - costM - backM - Math.max(0, mixingM);
      if (savingM < LEAST_SAVING_M || (best !== null && savingM <= best.savingM)) continue;
      if (!this.#hasHours(members) || !this.#hasHours(back)) continue;
      if (!this.#mayTake(left, stop) || !this.#mayTake(rest, other)) continue;
      if (!this.#isLinked(members) || !this.#isLinked(back)) continue;
      best = {
        savingM,
        days: new Map([
          [from, back],
          [to, members],
        ]),
      };
    }
    return best;
  }

  #hasHours(stops: readonly Stop[]): boolean {
    return hoursOf(stops) >= LEAST_DAY_SHARE * this.#limits.hoursPerDay - ROUNDING_H;
  }

  #mayTake(stops: readonly Stop[], stop: Stop): boolean {
    const { hoursPerDay, near } = this.#limits;
    const hours = hoursOf(stops) + stop.hours;
    return (
      hours <= MOST_DAY_SHARE * hoursPerDay + ROUNDING_H &&
      mayShareDay([...stops, stop]) &&
      isNearEnough(stop, stops, near)
    );
  }

  #isLinked(stops: readonly Stop[]): boolean {
    return isLinked(stops, this.#limits.longestStepM, this.#limits.ways);
  }

  /** A day's stops with one more where it adds least to the walk, and how much that is. */
  #inserted(stops: readonly Stop[], stop: Stop): readonly [Stop[], costM: number] {
    const { ways } = this.#limits;
    let [best, bestM] = [0, Number.POSITIVE_INFINITY];
    for (let place = 0; place <= stops.length; place += 1) {
      const [before, after] = [stops[place - 1], stops[place]];
      const costM =
        (before === undefined ? 0 : ways.stepM(before, stop)) +
        (after === undefined ? 0 : ways.stepM(stop, after)) -
        (before === undefined || after === undefined ? 0 : ways.stepM(before, after));
      if (costM < bestM) [best, bestM] = [place, costM];
    }
    return [[...stops.slice(0, best), stop, ...stops.slice(best)], bestM];
  }

  #walkOf(day: number): DayWalk {
    let walk = this.#walks[day];
    if (walk === undefined) {
      walk = new DayWalk(this.days[day]!, this.#limits.ways);
      this.#walks[day] = walk;
    }
    return walk;
  }
}
