import type { Distances } from "../../../src/core/zone/tour.ts";

/**
 * A length that no way through all stops can be shorter than, ends free: the 1-tree bound of Held and Karp (1970) with a stop at no distance from
 * any, raised by subgradient steps (Held and Karp 1971). 0 for fewer than two stops.
 */
export function leastPathLength({ count, between }: Distances): number {
  if (count < 2) return 0;
  if (count === 2) return between[1]!;
  const price = new Float64Array(count + 1);
  let best = 0;
  let step = spanningTree({ count, between }, price).length / (2 * count);
  for (let round = 0; round < 200; round += 1) {
    const tree = spanningTree({ count, between }, price);
    // The added stop hangs on by the two cheapest of its ways, which cost nothing but the prices.
    const ends = Array.from({ length: count }, (_, at) => at).sort((a, b) => price[a]! - price[b]!);
    tree.degrees[ends[0]!]! += 1;
    tree.degrees[ends[1]!]! += 1;
    const prices = price.subarray(0, count).reduce((sum, one) => sum + one, 0);
    const bound = tree.length + price[ends[0]!]! + price[ends[1]!]! - 2 * prices;
    best = Math.max(best, bound);
    for (let at = 0; at < count; at += 1) price[at]! += step * (tree.degrees[at]! - 2);
    step *= 0.97;
  }
  return best;
}

/**
 * The same for ways that do all stops of one label before those of another: each label's own bound, and the shortest tree that joins the labels.
 */
export function leastLabeledLength({ count, between }: Distances, labels: readonly string[]): number {
  const groups = [...new Set(labels)].map((label) => labels.flatMap((one, at) => (one === label ? [at] : [])));
  const within = groups.reduce((sum, group) => {
    const own = Float64Array.from(group.flatMap((a) => group.map((b) => between[a * count + b]!)));
    return sum + leastPathLength({ count: group.length, between: own });
  }, 0);
  const gaps = Float64Array.from(
    groups.flatMap((from) =>
      groups.map((to) => (from === to ? 0 : Math.min(...from.flatMap((a) => to.map((b) => between[a * count + b]!))))),
    ),
  );
  return within + spanningTree({ count: groups.length, between: gaps }, new Float64Array(groups.length)).length;
}

/** Prim's minimum spanning tree with a price on each end of an edge: its priced length and the degrees. */
function spanningTree({ count, between }: Distances, price: Float64Array): { length: number; degrees: number[] } {
  const degrees = Array.from({ length: count }, () => 0);
  const nearest = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  const parent = new Int32Array(count).fill(-1);
  const isIn = new Uint8Array(count);
  nearest[0] = 0;
  let length = 0;
  for (let added = 0; added < count; added += 1) {
    let next = -1;
    for (let at = 0; at < count; at += 1) if (isIn[at] === 0 && (next < 0 || nearest[at]! < nearest[next]!)) next = at;
    isIn[next] = 1;
    if (parent[next]! >= 0) {
      length += nearest[next]!;
      degrees[next]! += 1;
      degrees[parent[next]!]! += 1;
    }
    for (let at = 0; at < count; at += 1) {
      const priced = between[next * count + at]! + price[next]! + price[at]!;
      if (isIn[at] === 0 && priced < nearest[at]!) [nearest[at], parent[at]] = [priced, next];
    }
  }
  return { length, degrees };
}
