import { NumberText } from "../json-value.ts";
import { cellNumber } from "./cell-number.ts";
import type { CsvRecord } from "./csv-records.ts";

/** How the cells of a column become values. */
export type ColumnValues = (cell: string | undefined) => unknown;

/**
 * The values of a column: numbers where every filled cell is a plain number and no two different texts are the same number, so that
 * `1.1` and `1.10` as numbers of places stay apart; else text, untouched. An empty cell is null, a cell that the row lacks too.
 */
export function columnValues(rows: readonly CsvRecord[], column: number, mark: "." | ","): ColumnValues {
  return isNumberColumn(rows, column, mark)
    ? (cell) => {
        const number = cell === undefined ? null : cellNumber(cell, mark);
        return number === null ? null : new NumberText(number);
      }
    : (cell) => (cell === undefined || cell === "" ? null : cell);
}

function isNumberColumn(rows: readonly CsvRecord[], column: number, mark: "." | ","): boolean {
  const unusual = new Map<number, string>();
  let filled = 0;
  for (const { cells } of rows) {
    const cell = cells[column];
    if (cell === undefined || cell === "") continue;
    const number = cellNumber(cell, mark);
    if (number === null) return false;
    filled += 1;
    if (!isShortest(number)) {
      const value = Number(number);
      const known = unusual.get(value);
      if (known !== undefined && known !== number) return false;
      unusual.set(value, number);
    }
  }
  if (unusual.size === 0) return filled > 0;
  return !rows.some(({ cells }) => {
    const number = cellNumber(cells[column] ?? "", mark);
    return number !== null && isShortest(number) && unusual.has(Number(number));
  });
}

const isShortest = (number: string): boolean => String(Number(number)) === number;
