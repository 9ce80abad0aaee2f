/** A cell of a table: text is quoted, a number is written bare, null is an empty cell. */
export type CsvCell = string | number | boolean | null;

/**
 * A table as CSV (RFC 4180): CRLF after every row, text always in quotes. A text that a spreadsheet would take for a formula gets one
 * `'` in front, unless it is a plain number (OWASP, CSV Injection). `readCsv` takes it off again. Throws RangeError for NaN or Infinity
 * and for a row whose length is not the header's.
 */
export function writeCsv(header: readonly string[], rows: Iterable<readonly CsvCell[]>): string {
  const lines = [csvLine(header)];
  for (const row of rows) {
    if (row.length !== header.length) throw new RangeError(`Expected ${header.length} cells, got ${row.length}`);
    lines.push(csvLine(row));
  }
  return lines.join("");
}

/** One row of {@link writeCsv} with its end. */
export const csvLine = (cells: readonly CsvCell[]): string => `${cells.map(cellText).join(",")}\r\n`;

/**
 * The rows of a CSV text, the header among them; every cell is text, without the `'` that guards a formula. Rows end with CRLF, LF or
 * CR; a byte-order mark and blank lines are skipped. Throws RangeError naming the row for a quote that is not closed or text behind one.
 */
export function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = text.startsWith("\ufeff") ? 1 : 0;
  while (at < text.length) {
    const isQuoted = text[at] === '"';
    const end = isQuoted ? closingQuote(text, at, rows.length + 1) + 1 : endOfBareCell(text, at);
    const cell = isQuoted ? text.slice(at + 1, end - 1).replaceAll('""', '"') : text.slice(at, end);
    row.push(withoutFormulaGuard(cell));
    at = end;
    if (text[at] === ",") {
      at += 1;
      if (at < text.length && !isLineEnd(text[at]!)) continue;
      row.push("");
    } else if (at < text.length && !isLineEnd(text[at]!)) {
      throw new RangeError(`Row ${rows.length + 1} has text behind a closing quote`);
    }
    if (row.length > 1 || isQuoted || row[0] !== "") rows.push(row);
    row = [];
    at += text[at] === "\r" && text[at + 1] === "\n" ? 2 : 1;
  }
  return rows;
}

function cellText(cell: CsvCell): string {
  if (cell === null) return "";
  if (typeof cell === "boolean") return String(cell);
  if (typeof cell === "string") return `"${withGuard(cell).replaceAll('"', '""')}"`;
  if (!Number.isFinite(cell)) throw new RangeError(`Expected a finite number, got ${cell}`);
  return String(cell);
}

/** Guarded texts are those that begin with any number of `'` and then a trigger; one more or one less keeps the round trip exact. */
function withGuard(text: string): string {
  if (!"=+-@\t\r\n'".includes(text[0] ?? " ") || isPlainNumber(text)) return text;
  return startsWithTrigger(text, 0) ? `'${text}` : text;
}

/** A cell's text without the one `'` that guards a formula in it. */
export const withoutFormulaGuard = (cell: string): string =>
  cell[0] === "'" && startsWithTrigger(cell, 1) ? cell.slice(1) : cell;

function startsWithTrigger(text: string, from: number): boolean {
  let at = from;
  while (text[at] === "'") at += 1;
  return at < text.length && "=+-@\t\r\n".includes(text[at]!);
}

const isPlainNumber = (text: string): boolean => text.length <= 40 && /^[+-]?\d{1,20}(\.\d{1,20})?$/.test(text);

function closingQuote(text: string, open: number, row: number): number {
  for (let at = open + 1; at < text.length; at += 1) {
    if (text[at] !== '"') continue;
    if (text[at + 1] !== '"') return at;
    at += 1;
  }
  throw new RangeError(`Row ${row} opens a quote and does not close it`);
}

function endOfBareCell(text: string, start: number): number {
  let at = start;
  while (at < text.length && text[at] !== "," && !isLineEnd(text[at]!)) at += 1;
  return at;
}

const isLineEnd = (letter: string): boolean => letter === "\r" || letter === "\n";
