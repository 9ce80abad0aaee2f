import { cellNumber, fractionDigits } from "./cell-number.ts";
import type { CsvRecord } from "./csv-records.ts";

const SAMPLE_ROWS = 1000;

/**
 * The decimal mark of a table: a comma where a column of numbers has commas that cannot be thousands marks (their fractions are not
 * all three digits long) and no column of numbers has points; else a point.
 */
export function decimalMark(rows: readonly CsvRecord[], columns: number): "." | "," {
  let isComma = false;
  for (let column = 0; column < columns; column += 1) {
    if (isDecimalColumn(rows, column, ".")) return ".";
    if (!isComma) isComma = isDecimalColumn(rows, column, ",");
  }
  return isComma ? "," : ".";
}

function isDecimalColumn(rows: readonly CsvRecord[], column: number, mark: "." | ","): boolean {
  let isProven = false;
  for (let row = 0; row < rows.length && row < SAMPLE_ROWS; row += 1) {
    const cell = rows[row]!.cells[column];
    if (cell === undefined || cell.trim() === "") continue;
    if (cellNumber(cell, mark) === null) return false;
    const digits = fractionDigits(cell, mark);
    if (mark === "," ? digits > 0 && digits !== 3 : digits > 0) isProven = true;
  }
  return isProven;
}
