import type { Stop } from "./stops.ts";
import { type Distances, shortPath } from "./tour.ts";
import type { Walking } from "./walking.ts";

/** More than any zone's walk in meters: what going on to another group costs in the search, so that none is come back to. */
const OTHER_GROUP_M = 1e5;
const DISEASED_M = 1e7;

/**
 * A zone's stops in the order they are worked: with little walking, diseased trees last so that tools carry nothing to healthy ones, and where
 * `isBySide` one side of a street done before another is begun, so that a closure is set up once. This is the clustered traveling salesman problem
 * (Chisman 1975), solved as he does: as one without clusters, with a toll between them.
 */
export function orderOfWork(stops: readonly Stop[], walking: Walking, isBySide: boolean): number[] {
  const sides = isBySide ? sidesOf(stops, walking) : stops.map(() => "");
  const groups = stops.map(({ isDiseased }, at) => `${isDiseased} ${sides[at]!}`);
  const all = stops.map((_, at) => at);
  const byGroup = withToll(walking.distances(all), (a, b) => groups[a] !== groups[b], OTHER_GROUP_M);
  const path = shortPath(withToll(byGroup, (a, b) => stops[a]!.isDiseased !== stops[b]!.isDiseased, DISEASED_M));
  if (stops[path[0]!]!.isDiseased && !stops[path[path.length - 1]!]!.isDiseased) path.reverse();
  return isDoneByGroup(path, groups) && isHealthyFirst(path, stops) ? path : gathered(path, groups, stops, walking);
}

/** Length in meters of the walk through stops in an order. */
export function walkM(order: readonly number[], walking: Walking): number {
  let total = 0;
  for (let at = 1; at < order.length; at += 1) total += walking.stepM(order[at - 1]!, order[at]!);
  return total;
}

/** The side of a street each stop belongs to; a stop off the streets belongs to the side nearest to it. */
export function sidesOf(stops: readonly Stop[], walking: Walking): string[] {
  const known = stops.flatMap((_, at) => (walking.sideOf[at] == null ? [] : [at]));
  return stops.map((_, at) => {
    const own = walking.sideOf[at];
    if (own != null) return own;
    let nearest: string = "";
    let nearestM = Number.POSITIVE_INFINITY;
    for (const other of known) {
      const stepM = walking.stepM(at, other);
      if (stepM < nearestM) [nearest, nearestM] = [walking.sideOf[other]!, stepM];
    }
    return nearest;
  });
}

const isHealthyFirst = (path: readonly number[], stops: readonly Stop[]): boolean =>
  path.every((at, index) => index === 0 || stops[at]!.isDiseased || !stops[path[index - 1]!]!.isDiseased);

function isDoneByGroup(path: readonly number[], groups: readonly string[]): boolean {
  const changes = path.filter((at, index) => index > 0 && groups[at] !== groups[path[index - 1]!]).length;
  return changes === new Set(groups).size - 1;
}

/** Where the search did not part the groups: healthy ones first, in the order they are met, each by a short path from its end nearer to the last. */
function gathered(
  path: readonly number[],
  groups: readonly string[],
  stops: readonly Stop[],
  walking: Walking,
): number[] {
  const met = [...path].sort((a, b) => Number(stops[a]!.isDiseased) - Number(stops[b]!.isDiseased));
  const order: number[] = [];
  for (const group of new Set(met.map((at) => groups[at]!))) {
    const members = met.filter((at) => groups[at] === group);
    const run = shortPath(walking.distances(members)).map((at) => members[at]!);
    const last = order[order.length - 1];
    if (last !== undefined && walking.stepM(last, run[run.length - 1]!) < walking.stepM(last, run[0]!)) run.reverse();
    order.push(...run);
  }
  return order;
}

/** Distances with a toll on the pairs that are parted. */
export function withToll(
  { count, between }: Distances,
  areParted: (a: number, b: number) => boolean,
  tollM: number,
): Distances {
  const tolled = Float64Array.from(between);
  for (let a = 0; a < count; a += 1) {
    for (let b = 0; b < count; b += 1) if (a !== b && areParted(a, b)) tolled[a * count + b]! += tollM;
  }
  return { count, between: tolled };
}
