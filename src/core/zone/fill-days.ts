import { hoursOf, mayShareDay } from "./day.ts";
import { isLinked } from "./is-linked.ts";
import type { NearStops } from "./near-stops.ts";
import { isNearEnough, otherness } from "./otherness.ts";
import { LEAST_DAY_SHARE, MOST_DAY_SHARE } from "./split-route.ts";
import type { Stop } from "./stops.ts";
import type { WaysBetween } from "./ways-between.ts";

const ROUNDING_H = 1e-9;
/** Zones that the plan had and that give trees up to fill one short day: more are not disturbed for it. Our policy. */
const MOST_KEPT_GIVERS = 3;

/** What a day may hold, and how far apart its work may lie. */
export interface FillLimits {
  readonly hoursPerDay: number;
  readonly longestStepM: number;
  readonly ways: WaysBetween;
  readonly near: NearStops;
}

/**
 * Days with the leftovers put where a crew leader would put them. Days under three quarters of a crew-day are taken from the least on: first each
 * of their stops goes to the day near it that has room, whose dates and crew allow it and where it costs least (cheapest insertion); where not all
 * find one, the day is filled up instead from days near it that can spare stops. What can do neither stays a day of its own. Near is what is walked
 * to within the longest step, along the streets; for work of another urgency than most of the day's, within 100 m. Of days that are kept from before
 * at most three give to one. One day is returned for each given, in their order, empty where all its work went elsewhere.
 */
export function fillDays(days: readonly (readonly Stop[])[], isKept: readonly boolean[], limits: FillLimits): Stop[][] {
  const filling = new Filling(days, isKept, limits);
  for (;;) {
    const short = filling.nextShort();
    if (short === null) return filling.days;
    filling.settle(short);
  }
}

interface Move {
  readonly stop: Stop;
  readonly from: number;
  readonly to: number;
}

class Filling {
  readonly days: Stop[][];
  readonly #least: number;
  readonly #most: number;
  readonly #reachM: number;
  readonly #isKept: readonly boolean[];
  readonly #ways: WaysBetween;
  readonly #nearStops: NearStops;
  readonly #settled = new Set<number>();
  readonly #dayOf = new Map<Stop, number>();
  /** Hours of work in each day. */
  readonly #hours: number[];

  constructor(
    days: readonly (readonly Stop[])[],
    isKept: readonly boolean[],
    { hoursPerDay, longestStepM, ways, near }: FillLimits,
  ) {
    this.days = days.map((stops) => [...stops]);
    this.#hours = this.days.map(hoursOf);
    this.#least = LEAST_DAY_SHARE * hoursPerDay - ROUNDING_H;
    this.#most = MOST_DAY_SHARE * hoursPerDay + ROUNDING_H;
    this.#reachM = longestStepM;
    this.#isKept = isKept;
    this.#ways = ways;
    this.#nearStops = near;
    this.days.forEach((stops, day) => {
      for (const stop of stops) this.#dayOf.set(stop, day);
    });
  }

  /** The day with the least work among those too short and not looked at yet; of equals the one whose first tree comes first. */
  nextShort(): number | null {
    let best: number | null = null;
    for (let day = 0; day < this.days.length; day += 1) {
      const hours = this.#hours[day]!;
      if (hours >= this.#least || this.days[day]!.length === 0 || this.#settled.has(day)) continue;
      if (best === null || hours < this.#hours[best]! - ROUNDING_H) best = day;
    }
    return best;
  }

  settle(day: number): void {
    this.#settled.add(day);
    const moves = this.#givenAway(day) ?? this.#filledUp(day) ?? [];
    for (const { stop, from, to } of moves) {
      this.days[from] = this.days[from]!.filter((one) => one !== stop);
      this.days[to] = [...this.days[to]!, stop];
      this.#hours[from] = hoursOf(this.days[from]!);
      this.#hours[to] = hoursOf(this.days[to]!);
      this.#dayOf.set(stop, to);
      // A day that has changed may have become able to do what it could not.
      if (to !== day && this.#hours[to]! < this.#least) this.#settled.delete(to);
    }
  }

  /** Places for all stops of a day in other days, nearest to the others first; null where one finds none. */
  #givenAway(day: number): Move[] | null {
    const taking = new Map<number, Stop[]>();
    const moves: Move[] = [];
    let left = [...this.days[day]!];
    while (left.length > 0) {
      let best: { move: Move; costM: number } | null = null;
      for (const stop of left) {
        for (const [to, awayM] of this.#daysNear(stop, day, moves)) {
          const stops = taking.get(to) ?? this.days[to]!;
          if (!isNearEnough(stop, stops, this.#nearStops)) continue;
          if (hoursOf(stops) + stop.hours > this.#most || !mayShareDay([...stops, stop])) continue;
          const costM = awayM + otherness(stop, stops);
          if (best === null || costM < best.costM) best = { move: { stop, from: day, to }, costM };
        }
      }
      if (best === null) return null;
      const { stop, to } = best.move;
      moves.push(best.move);
      taking.set(to, [...(taking.get(to) ?? this.days[to]!), stop]);
      left = left.filter((one) => one !== stop);
    }
    return moves;
  }

  /** Stops of days near a short one that bring it to the least a day must hold, the cheapest first; null where they cannot. */
  #filledUp(day: number): Move[] | null {
    let stops = [...this.days[day]!];
    const giving = new Map<number, Stop[]>();
    const moves: Move[] = [];
    while (hoursOf(stops) < this.#least) {
      let best: { move: Move; costM: number } | null = null;
      for (const [stop, awayM] of this.#stopsNear(stops, day)) {
        const from = this.#dayOf.get(stop)!;
        const rest = (giving.get(from) ?? this.days[from]!).filter((one) => one !== stop);
        if (stops.includes(stop) || hoursOf(stops) + stop.hours > this.#most || !mayShareDay([...stops, stop]))
          continue;
        if (!isNearEnough(stop, stops, this.#nearStops) || hoursOf(rest) < this.#least) continue;
        if (this.#isKept[from] && !giving.has(from) && this.#keptAmong(giving) >= MOST_KEPT_GIVERS) continue;
        if (!isLinked(rest, this.#reachM, this.#ways)) continue;
        const costM = awayM + otherness(stop, stops);
        if (best === null || costM < best.costM) best = { move: { stop, from, to: day }, costM };
      }
      if (best === null) return null;
      const { stop, from } = best.move;
      moves.push(best.move);
      giving.set(
        from,
        (giving.get(from) ?? this.days[from]!).filter((one) => one !== stop),
      );
      stops = [...stops, stop];
    }
    return moves;
  }

  #keptAmong(giving: ReadonlyMap<number, readonly Stop[]>): number {
    return [...giving.keys()].filter((day) => this.#isKept[day]).length;
  }

  /** Days with a stop within reach of one, and how far; a stop that is moving counts in the day it moves to. */
  #daysNear(stop: Stop, ownDay: number, moves: readonly Move[]): Map<number, number> {
    const near = new Map<number, number>();
    for (const [other, awayM] of this.#nearStops.around(stop, this.#reachM)) {
      const day = moves.find((move) => move.stop === other)?.to ?? this.#dayOf.get(other)!;
      if (day !== ownDay) near.set(day, Math.min(near.get(day) ?? Number.POSITIVE_INFINITY, awayM));
    }
    return near;
  }

  /** Stops of other days within reach of some stops, and how far from the nearest of them. */
  #stopsNear(stops: readonly Stop[], ownDay: number): Map<Stop, number> {
    const near = new Map<Stop, number>();
    for (const stop of stops) {
      for (const [other, awayM] of this.#nearStops.around(stop, this.#reachM)) {
        if (this.#dayOf.get(other) !== ownDay) {
          near.set(other, Math.min(near.get(other) ?? Number.POSITIVE_INFINITY, awayM));
        }
      }
    }
    return near;
  }
}
