import type { Stop } from "./stops.ts";
import { shortPath, straightDistances } from "./tour.ts";

/**
 * A zone's stops in the order they are worked: with little walking, diseased trees last so that tools carry nothing to healthy ones. Of the
 * ways around both walks, the one that is shortest in all. `xy` holds the positions of `stops`, two a stop.
 */
export function orderOfWork(stops: readonly Stop[], xy: Float64Array): number[] {
  const numbers = stops.map((_, at) => at);
  const healthy = pathOf(
    numbers.filter((at) => !stops[at]!.isDiseased),
    xy,
  );
  const diseased = pathOf(
    numbers.filter((at) => stops[at]!.isDiseased),
    xy,
  );
  if (healthy.length === 0 || diseased.length === 0) return [...healthy, ...diseased];
  let best: number[] = [];
  let bestM = Number.POSITIVE_INFINITY;
  for (const first of [healthy, [...healthy].reverse()]) {
    for (const second of [diseased, [...diseased].reverse()]) {
      const order = [...first, ...second];
      const walk = walkM(order, xy);
      if (walk < bestM) [best, bestM] = [order, walk];
    }
  }
  return best;
}

/** Length in meters of the way through stops in an order, straight from one to the next. */
export function walkM(order: readonly number[], xy: Float64Array): number {
  let total = 0;
  for (let at = 1; at < order.length; at += 1) {
    const [a, b] = [order[at - 1]!, order[at]!];
    total += Math.sqrt((xy[2 * a]! - xy[2 * b]!) ** 2 + (xy[2 * a + 1]! - xy[2 * b + 1]!) ** 2);
  }
  return total;
}

const pathOf = (numbers: readonly number[], xy: Float64Array): number[] =>
  shortPath(straightDistances(xy, numbers)).map((at) => numbers[at]!);
