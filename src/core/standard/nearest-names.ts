/** Longer names are compared by their beginning. */
const MAX_NAME = 64;

/**
 * The known names most like a given one, best first, at most `count`: fewest letters to change, ties in the order given. The best one
 * always; others only where at most half of the letters change.
 */
export function nearestNames(name: string, known: readonly string[], count = 3): string[] {
  const given = name.slice(0, MAX_NAME).toLowerCase();
  return known
    .map((one, at) => ({ one, at, away: lettersToChange(given, one.slice(0, MAX_NAME).toLowerCase()) }))
    .sort((a, b) => a.away - b.away || a.at - b.at)
    .filter(({ away }, place) => place === 0 || away <= given.length / 2)
    .slice(0, count)
    .map(({ one }) => one);
}

/** Letters to insert, drop or replace to make one word of another (Levenshtein 1966). */
function lettersToChange(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const replaced = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replaced, above[j]! + 1, row[j - 1]! + 1));
    }
    above = row;
  }
  return above[b.length]!;
}
