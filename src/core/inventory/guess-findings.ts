import type { ColumnGuess } from "../model/column-guess.ts";
import type { Finding } from "../model/finding.ts";
import type { Layer } from "../model/terms.ts";

/** One finding that lists a guess, and one for each unit that was told from the range of the values alone; none without a guess. */
export function guessFindings(layer: Layer, guesses: readonly ColumnGuess[], file: string | null): Finding[] {
  if (guesses.length === 0) return [];
  const parts = guesses.map(({ field, column, unit, unitFrom }) => {
    const how = unit === null ? "" : unitFrom === "assumed" ? ` (taken as ${unit})` : ` (${unit})`;
    return `${field} from ${column.slice(0, 60)}${how}`;
  });
  const listed: Finding = {
    code: "columns-guessed",
    severity: "info",
    layer: "columns",
    file,
    feature: null,
    field: null,
    value: null,
    reason: `The columns of ${layer} were guessed from their names: ${parts.join(", ")}.`,
    whatToDo: "Check the list, units above all; a column map of your own outranks it.",
  };
  const ranged = guesses.filter(({ unitFrom }) => unitFrom === "range");
  return [
    listed,
    ...ranged.map(
      ({ field, column, unit, samples }): Finding => ({
        code: "unit-guessed",
        severity: "warning",
        layer: "columns",
        file,
        feature: null,
        field,
        value: column.slice(0, 256),
        reason: `Nothing names the unit of ${column.slice(0, 60)}; its values, such as ${samples[0] ?? "none"}, are taken as ${unit} by their size.`,
        whatToDo: `Say the unit of ${column.slice(0, 60)} in the column map.`,
      }),
    ),
  ];
}
