import { orderOfWork, walkM } from "./order-of-work.ts";
import { isInLane, type Stop, stopPositions } from "./stops.ts";
import type { Streets } from "./streets/streets.ts";
import { walkingAmong } from "./walking.ts";

/** A day's stops in their order of work. */
export interface WalkedDay {
  readonly stops: readonly Stop[];
  /** Length in meters of the walk through them. */
  readonly walkM: number;
  /** Street and side of each stop; null off the streets. */
  readonly sides: readonly (string | null)[];
}

/** A day's stops in the order of work that is searched for ({@link orderOfWork}); the same whatever order they come in. */
export function walkedDay(day: readonly Stop[], streets: Streets): WalkedDay {
  const stops = [...day].sort((a, b) => a.tree.row - b.tree.row);
  const walking = walkingAmong(stops, stopPositions(stops), streets);
  const order = orderOfWork(stops, walking, stops.some(isInLane));
  return {
    stops: order.map((at) => stops[at]!),
    walkM: walkM(order, walking),
    sides: order.map((at) => walking.sideOf[at] ?? null),
  };
}

/** A day's stops in the order they are given in. */
export function walkedAsGiven(stops: readonly Stop[], streets: Streets): WalkedDay {
  const walking = walkingAmong(stops, stopPositions(stops), streets);
  const order = stops.map((_, at) => at);
  return { stops, walkM: walkM(order, walking), sides: order.map((at) => walking.sideOf[at] ?? null) };
}
