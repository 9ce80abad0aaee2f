/** Share of the interval that is left after each turn of {@link leastByGoldenSection}. */
export const GOLDEN_SHARE = (Math.sqrt(5) - 1) / 2;

/**
 * The least value met in a golden-section search between two ends, both of them looked at; exact to the last interval where there is one valley,
 * and never above what was met elsewhere. The value at `low` for an empty interval. Kiefer 1953.
 */
export function leastByGoldenSection(low: number, high: number, turns: number, at: (value: number) => number): number {
  if (!(high > low)) return at(low);
  let least = Math.min(at(low), at(high));
  let from = low;
  let to = high;
  let one = to - GOLDEN_SHARE * (to - from);
  let other = from + GOLDEN_SHARE * (to - from);
  let atOne = at(one);
  let atOther = at(other);
  for (let turn = 0; turn < turns; turn += 1) {
    if (atOne <= atOther) {
      to = other;
      other = one;
      atOther = atOne;
      one = to - GOLDEN_SHARE * (to - from);
      atOne = at(one);
    } else {
      from = one;
      one = other;
      atOne = atOther;
      other = from + GOLDEN_SHARE * (to - from);
      atOther = at(other);
    }
    least = Math.min(least, atOne, atOther);
  }
  return least;
}
