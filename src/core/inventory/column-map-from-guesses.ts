import type { ColumnGuess } from "../model/column-guess.ts";
import { type ColumnMap, type ColumnSource, FIELDS } from "../model/column-map.ts";
import { LAYERS } from "../model/terms.ts";

/** What of a guess goes into a column map, as it was guessed or as a person mended it. */
export type CheckedGuess = Pick<ColumnGuess, "layer" | "field" | "column" | "unit" | "zero">;

/**
 * The column map that a checked list of guesses makes, to be kept as JSON and given to the next run: units and the meaning of 0 are written
 * out, so that nothing in it is assumed any more. Layers and fields come in their fixed order; of two rows for a field the later one counts.
 */
export function columnMapFromGuesses(guesses: readonly CheckedGuess[]): ColumnMap {
  const layers = LAYERS.filter((layer) => guesses.some((guess) => guess.layer === layer));
  return Object.fromEntries(
    layers.map((layer) => {
      const sources = FIELDS[layer].flatMap((field: string) => {
        const guess = guesses.findLast((one) => one.layer === layer && one.field === field);
        return guess === undefined ? [] : [[field, sourceOf(guess)] as const];
      });
      return [layer, Object.fromEntries(sources)];
    }),
  );
}

const sourceOf = ({ column, unit, zero }: CheckedGuess): ColumnSource => ({
  column,
  ...(unit === null ? {} : { unit }),
  ...(zero === null ? {} : { zero }),
});
