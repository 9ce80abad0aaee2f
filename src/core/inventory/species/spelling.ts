/** Shorter words are not forgiven a letter: too many are alike. */
const LEAST_LETTERS = 5;
/** Words this long are forgiven two letters, as the longest botanical names are the ones most often misspelled; our policy. */
const LONG_LETTERS = 9;
const MOST_LETTERS = 40;

/**
 * The one word of a list that a word most likely means: one letter wrong, missing, extra or swapped, or in words of nine letters and more
 * two of them; the nearest counts. Null when none or several are as near, and for words under five or over forty letters.
 */
export function respelled(word: string, known: readonly string[]): string | null {
  if (word.length < LEAST_LETTERS || word.length > MOST_LETTERS) return null;
  for (let most = 1; most <= (word.length >= LONG_LETTERS ? 2 : 1); most += 1) {
    const near = new Set(known.filter((one) => one.length >= LEAST_LETTERS && isNear(word, one, most)));
    if (near.size > 0) return near.size === 1 ? [...near][0]! : null;
  }
  return null;
}

/** Whether two words are at most so many replaced, missing, extra or swapped neighboring letters apart; words over forty letters are not. */
export function isNear(left: string, right: string, most: number): boolean {
  if (Math.abs(left.length - right.length) > most || left.length > MOST_LETTERS) return false;
  return distance(left, right) <= most;
}

/** Letters to replace, drop, add or swap with a neighbor until two words are the same (Damerau 1964, optimal string alignment). */
function distance(left: string, right: string): number {
  const width = right.length + 1;
  const table = new Uint8Array((left.length + 1) * width);
  for (let column = 0; column < width; column += 1) table[column] = column;
  for (let row = 1; row <= left.length; row += 1) {
    table[row * width] = row;
    for (let column = 1; column < width; column += 1) {
      const isSame = left[row - 1] === right[column - 1];
      const at = row * width + column;
      let least = Math.min(table[at - width]! + 1, table[at - 1]! + 1, table[at - width - 1]! + (isSame ? 0 : 1));
      const isSwapped =
        row > 1 && column > 1 && left[row - 1] === right[column - 2] && left[row - 2] === right[column - 1];
      if (isSwapped) least = Math.min(least, table[at - 2 * width - 2]! + 1);
      table[at] = least;
    }
  }
  return table[left.length * width + right.length]!;
}
