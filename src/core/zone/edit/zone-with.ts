import type { Zone } from "../../model/zone.ts";
import { describeZone, type ZoneIdentity } from "../describe-zone.ts";
import { type Stop, stopPositions } from "../stops.ts";
import { walkedAsGiven, walkedDay } from "../walked-day.ts";
import { walkingAmong } from "../walking.ts";
import type { ZoneDesk } from "./zone-desk.ts";

/** A zone with the given work, its figures made anew; in the given order where it is ordered by hand. Throws RangeError for no stops. */
export function zoneWith(desk: ZoneDesk, identity: ZoneIdentity, stops: readonly Stop[]): Zone {
  const { frame } = desk;
  const day = identity.isHandOrdered === true ? walkedAsGiven(stops, frame.streets) : walkedDay(stops, frame.streets);
  return describeZone({ ...identity, isByHand: true }, day, frame);
}

/**
 * Stops in a hand-made order with new ones put where each adds least to the walk (cheapest insertion), one after the other; healthy trees before
 * the first diseased one and diseased ones after the last healthy one where the order keeps to that.
 */
export function inserted(desk: ZoneDesk, ordered: readonly Stop[], added: readonly Stop[]): Stop[] {
  const all = [...ordered, ...added];
  const walking = walkingAmong(all, stopPositions(all), desk.frame.streets);
  const order = ordered.map((_, at) => at);
  for (let next = ordered.length; next < all.length; next += 1) {
    const [first, last] = placesFor(all[next]!, order, all);
    let [best, bestM] = [last, Number.POSITIVE_INFINITY];
    for (let place = first; place <= last; place += 1) {
      const [before, after] = [order[place - 1], order[place]];
      const detourM =
        (before === undefined ? 0 : walking.stepM(before, next)) +
        (after === undefined ? 0 : walking.stepM(next, after)) -
        (before === undefined || after === undefined ? 0 : walking.stepM(before, after));
      if (detourM < bestM) [best, bestM] = [place, detourM];
    }
    order.splice(best, 0, next);
  }
  return order.map((at) => all[at]!);
}

function placesFor(stop: Stop, order: readonly number[], all: readonly Stop[]): readonly [first: number, last: number] {
  const firstDiseased = order.findIndex((at) => all[at]!.isDiseased);
  if (firstDiseased < 0) return stop.isDiseased ? [order.length, order.length] : [0, order.length];
  const lastHealthy = order.findLastIndex((at) => !all[at]!.isDiseased);
  if (lastHealthy > firstDiseased) return [0, order.length];
  return stop.isDiseased ? [firstDiseased, order.length] : [0, firstDiseased];
}
