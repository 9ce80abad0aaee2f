import Flatbush from "flatbush";
import { CREWS, URGENCIES } from "../model/terms.ts";
import { hoursOf, mayShareDay } from "./day.ts";
import { LEAST_DAY_SHARE, MOST_DAY_SHARE } from "./split-route.ts";
import { type Stop, stopPositions } from "./stops.ts";

/** What it costs in meters of walk to take a stop along with work that is a step more urgent, or with a crew a step more restricted. Our policy. */
const OTHER_URGENCY_M = 100;
const OTHER_CREW_M = 150;
const ROUNDING_H = 1e-9;

/** What a day may hold, and how far apart its work may lie. */
export interface FillLimits {
  readonly hoursPerDay: number;
  readonly longestStepM: number;
}

/**
 * Days with the leftovers put where a crew leader would put them. Days under three quarters of a crew-day are taken from the least on: first each
 * of their stops goes to the day near it that has room, whose dates and crew allow it and where it costs least (cheapest insertion); where not all
 * find one, the day is filled up instead from days near it that can spare stops. What can do neither stays an island. Work nearer than the longest
 * step counts as near. One day is returned for each given, in their order, empty where all its work went elsewhere.
 */
export function fillDays(days: readonly (readonly Stop[])[], limits: FillLimits): Stop[][] {
  const filling = new Filling(days, limits);
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
  readonly #settled = new Set<number>();
  readonly #index: Flatbush | null;
  readonly #stops: Stop[];
  readonly #dayOf = new Map<Stop, number>();
  readonly #near = new Map<Stop, readonly [Stop, number][]>();

  constructor(days: readonly (readonly Stop[])[], { hoursPerDay, longestStepM }: FillLimits) {
    this.days = days.map((stops) => [...stops]);
    this.#least = LEAST_DAY_SHARE * hoursPerDay - ROUNDING_H;
    this.#most = MOST_DAY_SHARE * hoursPerDay + ROUNDING_H;
    this.#reachM = longestStepM;
    this.#stops = this.days.flat();
    this.#index = this.#stops.length === 0 ? null : new Flatbush(this.#stops.length);
    for (const { tree } of this.#stops) this.#index?.add(tree.lonDeg, tree.latDeg, tree.lonDeg, tree.latDeg);
    this.#index?.finish();
    this.days.forEach((stops, day) => {
      for (const stop of stops) this.#dayOf.set(stop, day);
    });
  }

  /** The day with the least work among those too short and not looked at yet; of equals the one whose first tree comes first. */
  nextShort(): number | null {
    let best: number | null = null;
    this.days.forEach((stops, day) => {
      if (stops.length === 0 || this.#settled.has(day) || hoursOf(stops) >= this.#least) return;
      if (best === null || hoursOf(stops) < hoursOf(this.days[best]!) - ROUNDING_H) best = day;
    });
    return best;
  }

  settle(day: number): void {
    this.#settled.add(day);
    const moves = this.#givenAway(day) ?? this.#filledUp(day) ?? [];
    for (const { stop, from, to } of moves) {
      this.days[from] = this.days[from]!.filter((one) => one !== stop);
      this.days[to] = [...this.days[to]!, stop];
      this.#dayOf.set(stop, to);
      // A day that has changed may have become able to do what it could not.
      if (to !== day && hoursOf(this.days[to]!) < this.#least) this.#settled.delete(to);
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
        if (hoursOf(rest) < this.#least || !isLinked(rest, this.#reachM)) continue;
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

  /** Days with a stop within reach of one, and how far; a stop that is moving counts in the day it moves to. */
  #daysNear(stop: Stop, ownDay: number, moves: readonly Move[]): Map<number, number> {
    const near = new Map<number, number>();
    for (const [other, awayM] of this.#around(stop)) {
      const day = moves.find((move) => move.stop === other)?.to ?? this.#dayOf.get(other)!;
      if (day !== ownDay) near.set(day, Math.min(near.get(day) ?? Number.POSITIVE_INFINITY, awayM));
    }
    return near;
  }

  /** Stops of other days within reach of some stops, and how far from the nearest of them. */
  #stopsNear(stops: readonly Stop[], ownDay: number): Map<Stop, number> {
    const near = new Map<Stop, number>();
    for (const stop of stops) {
      for (const [other, awayM] of this.#around(stop)) {
        if (this.#dayOf.get(other) !== ownDay) {
          near.set(other, Math.min(near.get(other) ?? Number.POSITIVE_INFINITY, awayM));
        }
      }
    }
    return near;
  }

  /** All other stops within reach of one with their straight distances. */
  #around(stop: Stop): readonly [Stop, number][] {
    const known = this.#near.get(stop) ?? this.#search(stop);
    this.#near.set(stop, known);
    return known;
  }

  #search(stop: Stop): readonly [Stop, number][] {
    const { lonDeg, latDeg } = stop.tree;
    const latReach = this.#reachM / 110_000;
    const lonReach = latReach / Math.max(0.05, Math.cos((latDeg * Math.PI) / 180));
    const found = this.#index!.search(lonDeg - lonReach, latDeg - latReach, lonDeg + lonReach, latDeg + latReach);
    const others = found.sort((a, b) => a - b).map((at) => this.#stops[at]!);
    const xy = stopPositions([stop, ...others]);
    return others.flatMap((other, at): [Stop, number][] => {
      const awayM = Math.hypot(xy[2 * at + 2]! - xy[0]!, xy[2 * at + 3]! - xy[1]!);
      return other === stop || awayM > this.#reachM ? [] : [[other, awayM]];
    });
  }
}

/** What it costs to mix a stop with a day's work of another urgency or crew. */
function otherness(stop: Stop, stops: readonly Stop[]): number {
  const { visit } = stops[0]!;
  const urgency = Math.abs(URGENCIES.indexOf(visit.urgency) - URGENCIES.indexOf(stop.visit.urgency));
  const crew = Math.abs(CREWS.indexOf(visit.crew) - CREWS.indexOf(stop.visit.crew));
  return OTHER_URGENCY_M * urgency + OTHER_CREW_M * crew;
}

/** Whether steps of at most `reachM` lead from each stop to each other. */
function isLinked(stops: readonly Stop[], reachM: number): boolean {
  if (stops.length < 2) return true;
  const xy = stopPositions(stops);
  const reached = [0];
  const waiting = new Set(stops.keys());
  waiting.delete(0);
  for (let at = 0; at < reached.length; at += 1) {
    const from = reached[at]!;
    for (const to of waiting) {
      if (Math.hypot(xy[2 * from]! - xy[2 * to]!, xy[2 * from + 1]! - xy[2 * to + 1]!) > reachM) continue;
      reached.push(to);
      waiting.delete(to);
    }
  }
  return waiting.size === 0;
}
