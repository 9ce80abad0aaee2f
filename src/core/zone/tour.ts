/** Distances between all pairs of stops, `n * n` row by row; symmetric, 0 on the diagonal. */
export interface Distances {
  readonly count: number;
  readonly between: Float64Array;
}

/** Straight distances between points `xy[2 * i]`, `xy[2 * i + 1]`, for the stops named by `stops`. */
export function straightDistances(xy: Float64Array, stops: readonly number[]): Distances {
  const count = stops.length;
  const between = new Float64Array(count * count);
  for (let a = 0; a < count; a += 1) {
    for (let b = a + 1; b < count; b += 1) {
      const dx = xy[2 * stops[a]!]! - xy[2 * stops[b]!]!;
      const dy = xy[2 * stops[a]! + 1]! - xy[2 * stops[b]! + 1]!;
      between[a * count + b] = Math.sqrt(dx * dx + dy * dy);
      between[b * count + a] = between[a * count + b]!;
    }
  }
  return { count, between };
}

/** Gains smaller than this are rounding, not progress. */
const LEAST_GAIN = 1e-9;
/** Nearest-neighbor tours that are improved, each from another start; the best is kept. */
const STARTS = 6;

/**
 * A short round trip through all stops, as their numbers in order: nearest-neighbor tours from a few starts, each improved by 2-opt
 * (Croes 1958) and Or-opt (Or 1976) until neither helps. Within 5 % of the proven optimum on the published problems in the tests; never
 * promised to be the shortest. Quadratic in the number of stops for each pass, so meant for a few hundred. Equal inputs, equal tours.
 */
export function shortRoundTrip(distances: Distances): number[] {
  const { count } = distances;
  if (count < 3) return Array.from({ length: count }, (_, stop) => stop);
  let best: number[] = [];
  let bestLength = Number.POSITIVE_INFINITY;
  for (let start = 0; start < Math.min(STARTS, count); start += 1) {
    const tour = nearestNeighborTour(distances, Math.floor((start * count) / STARTS));
    improve(tour, distances);
    const length = roundTripLength(tour, distances);
    if (length < bestLength - LEAST_GAIN) [best, bestLength] = [tour, length];
  }
  return best;
}

/**
 * A short way from some stop through all others, as their numbers in order, ends free: a round trip over the stops and one more that is
 * at no distance from any, opened there. It starts at the end with the lower number.
 */
export function shortPath(distances: Distances): number[] {
  const { count, between } = distances;
  if (count < 3) return Array.from({ length: count }, (_, stop) => stop);
  const wider = new Float64Array((count + 1) * (count + 1));
  for (let a = 0; a < count; a += 1) wider.set(between.subarray(a * count, (a + 1) * count), a * (count + 1));
  const tour = shortRoundTrip({ count: count + 1, between: wider });
  const open = tour.indexOf(count);
  const path = [...tour.slice(open + 1), ...tour.slice(0, open)];
  return path[0]! <= path[path.length - 1]! ? path : path.reverse();
}

export function roundTripLength(tour: readonly number[], { count, between }: Distances): number {
  let length = 0;
  for (let at = 0; at < tour.length; at += 1) {
    length += between[tour[at]! * count + tour[(at + 1) % tour.length]!]!;
  }
  return length;
}

function nearestNeighborTour({ count, between }: Distances, start: number): number[] {
  const isVisited = new Uint8Array(count);
  const tour = [start];
  isVisited[start] = 1;
  while (tour.length < count) {
    const row = tour[tour.length - 1]! * count;
    let next = -1;
    for (let stop = 0; stop < count; stop += 1) {
      if (isVisited[stop] === 0 && (next < 0 || between[row + stop]! < between[row + next]!)) next = stop;
    }
    tour.push(next);
    isVisited[next] = 1;
  }
  return tour;
}

function improve(tour: number[], distances: Distances): void {
  while (untangle(tour, distances) || moveRuns(tour, distances)) {
    // Each round shortens the tour, of which there are finitely many.
  }
}

/** 2-opt: turns stretches around wherever that is shorter; whether any was. */
function untangle(tour: number[], { count, between }: Distances): boolean {
  let isShorter = false;
  for (let i = 0; i < count - 1; i += 1) {
    for (let j = i + 2; j < count; j += 1) {
      if (i === 0 && j === count - 1) continue;
      const a = tour[i]!;
      const b = tour[i + 1]!;
      const c = tour[j]!;
      const d = tour[(j + 1) % count]!;
      const gain =
        between[a * count + b]! + between[c * count + d]! - between[a * count + c]! - between[b * count + d]!;
      if (gain <= LEAST_GAIN) continue;
      for (let low = i + 1, high = j; low < high; low += 1, high -= 1) {
        [tour[low], tour[high]] = [tour[high]!, tour[low]!];
      }
      isShorter = true;
    }
  }
  return isShorter;
}

/** Or-opt: moves runs of one to three stops elsewhere, either way around, wherever that is shorter; whether any was. */
function moveRuns(tour: number[], distances: Distances): boolean {
  let isShorter = false;
  for (let size = 1; size <= Math.min(3, distances.count - 2); size += 1) {
    for (let from = 0; from < distances.count; from += 1) {
      if (moveRun(tour, distances, from, size)) isShorter = true;
    }
  }
  return isShorter;
}

function moveRun(tour: number[], { count, between }: Distances, from: number, size: number): boolean {
  const first = tour[from]! * count;
  const last = tour[(from + size - 1) % count]! * count;
  const before = tour[(from + count - 1) % count]!;
  const after = tour[(from + size) % count]!;
  const saved = between[first + before]! + between[last + after]! - between[before * count + after]!;
  let best = LEAST_GAIN;
  let place = -1;
  let isTurned = false;
  let left = after;
  for (let index = size; index < count - 1; index += 1) {
    const at = from + index + 1;
    const right = tour[at < count ? at : at - count]!;
    const kept = saved + between[left * count + right]!;
    const straight = kept - between[first + left]! - between[last + right]!;
    const turned = kept - between[last + left]! - between[first + right]!;
    if (straight > best) [best, place, isTurned] = [straight, index, false];
    if (turned > best) [best, place, isTurned] = [turned, index, true];
    left = right;
  }
  if (place < 0) return false;
  const run = Array.from({ length: size }, (_, index) => tour[(from + index) % count]!);
  if (isTurned) run.reverse();
  const rest = Array.from({ length: count - size }, (_, index) => tour[(from + size + index) % count]!);
  rest.splice(place - size + 1, 0, ...run);
  for (let index = 0; index < count; index += 1) tour[index] = rest[index]!;
  return true;
}
