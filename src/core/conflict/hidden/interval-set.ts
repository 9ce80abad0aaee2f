/** Disjoint intervals of the real line, ascending, as pairs of ends: from, to, from, to ... */
export type IntervalSet = readonly number[];

/** What lies in any of some sets. Intervals that touch become one. */
export function union(...sets: readonly IntervalSet[]): number[] {
  const pairs: [number, number][] = [];
  for (const set of sets) for (let at = 0; at < set.length; at += 2) pairs.push([set[at]!, set[at + 1]!]);
  pairs.sort((one, other) => one[0] - other[0] || one[1] - other[1]);
  const joined: number[] = [];
  for (const [from, to] of pairs) {
    if (joined.length > 0 && from <= joined[joined.length - 1]!) {
      joined[joined.length - 1] = Math.max(joined[joined.length - 1]!, to);
    } else joined.push(from, to);
  }
  return joined;
}

/** What lies in the first set and not in the second. */
export function difference(set: IntervalSet, taken: IntervalSet): number[] {
  const left: number[] = [];
  let skip = 0;
  for (let at = 0; at < set.length; at += 2) {
    let from = set[at]!;
    const to = set[at + 1]!;
    while (skip < taken.length && taken[skip + 1]! <= from) skip += 2;
    for (let next = skip; next < taken.length && taken[next]! < to; next += 2) {
      if (taken[next]! > from) left.push(from, taken[next]!);
      from = Math.max(from, taken[next + 1]!);
    }
    if (from < to) left.push(from, to);
  }
  return left;
}

/** Total length of a set. */
export function measure(set: IntervalSet): number {
  let sum = 0;
  for (let at = 0; at < set.length; at += 2) sum += set[at + 1]! - set[at]!;
  return sum;
}

/** Whether two sets share more than single points. */
export function overlaps(one: IntervalSet, other: IntervalSet): boolean {
  for (let at = 0, to = 0; at < one.length && to < other.length; ) {
    if (Math.min(one[at + 1]!, other[to + 1]!) > Math.max(one[at]!, other[to]!)) return true;
    if (one[at + 1]! < other[to + 1]!) at += 2;
    else to += 2;
  }
  return false;
}
