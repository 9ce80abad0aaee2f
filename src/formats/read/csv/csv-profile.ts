import { withThousands } from "../../../core/units/with-thousands.ts";
import { type FeatureFault, featureFault } from "../../geojson/feature-fault.ts";
import type { ReadingTime } from "../../geojson/reading-time.ts";
import { doubt, note } from "../converted.ts";
import type { Limits } from "../limits.ts";
import { uniqueNames } from "../unique-names.ts";
import { pastLimit } from "../unreadable-file.ts";
import type { CsvRecord } from "./csv-records.ts";
import { decimalMark } from "./decimal-mark.ts";
import { findHeader } from "./find-header.ts";
import { NumberColumns } from "./number-columns.ts";

/** Records from which header, decimal mark and position are told: titles above the header and a thousand rows. */
const SAMPLE_RECORDS = 1100;

/** What a table is, after its rows were gone through once; the rows themselves are not kept. */
export interface CsvProfile {
  readonly names: readonly string[];
  /** Columns the header has; cells behind them are strays. */
  readonly width: number;
  readonly mark: "." | ",";
  /** The first rows, for guesses. */
  readonly sample: readonly CsvRecord[];
  readonly rowCount: number;
  /** The table's rows from the first on, blank ones left out; can be asked for again. */
  rows(): Generator<CsvRecord, void, undefined>;
  /** Whether the cells of a column are numbers. */
  isNumber(column: number): boolean;
  readonly findings: readonly FeatureFault[];
}

/** Goes through the records of a table: its header, its rows and its kinds of columns. `records` begins anew at each call. */
export function csvProfile(records: () => Iterable<CsvRecord>, limits: Limits, time: ReadingTime): CsvProfile {
  const top: CsvRecord[] = [];
  for (const record of records()) if (top.push(record) >= SAMPLE_RECORDS) break;
  const headerAt = findHeader(top);
  const header = headerAt === -1 ? [] : top[headerAt]!.cells;
  const sample = top.slice(headerAt + 1).filter(isFilled);
  const mark = decimalMark(
    sample,
    sample.reduce((most, { cells }) => Math.max(most, cells.length), 0),
  );

  function* rows(): Generator<CsvRecord, void, undefined> {
    let at = -1;
    for (const record of records()) {
      at += 1;
      time.step();
      if (at > headerAt && isFilled(record)) yield record;
    }
  }

  const count = { records: 0, rows: 0, widest: 0, doubtful: 0 };
  let firstDoubtful = 0;
  /** Rows, and the line of the first of them, by their number of cells. */
  const lengths = new Map<number, { rows: number; readonly line: number }>();
  const numbers = new NumberColumns(mark);
  for (const record of records()) {
    const { cells, line } = record;
    count.records += 1;
    time.step();
    if (cells.length > limits.columns)
      throw pastLimit(`${withThousands(cells.length)} columns in line ${line}`, limits.columns, "Check the delimiter.");
    if (count.records > limits.rows)
      throw pastLimit(`more than ${withThousands(limits.rows)} rows`, limits.rows, "Split the file.");
    if (count.records - 1 <= headerAt || !isFilled(record)) continue;
    count.rows += 1;
    count.widest = Math.max(count.widest, filledLength(cells));
    if (record.isDoubtful && count.doubtful++ === 0) firstDoubtful = line;
    const alike = lengths.get(cells.length);
    if (alike === undefined) lengths.set(cells.length, { rows: 1, line });
    else alike.rows += 1;
    numbers.add(cells);
  }
  while (numbers.needsMore()) for (const { cells } of rows()) numbers.add(cells);

  const width = headerAt === -1 ? count.widest : Math.max(filledLength(header), Math.min(header.length, count.widest));
  const { names, renamed } = uniqueNames(header.slice(0, width), count.widest);
  const findings: FeatureFault[] = [];
  if (headerAt > 0) findings.push(titleNote(top[headerAt]!.line, top[0]!.cells));
  if (headerAt === -1 && count.records > 0) findings.push(noHeader());
  if (renamed.length > 0) findings.push(renamedDoubt(renamed));
  const blank = count.records - headerAt - 1 - count.rows;
  if (blank > 0) findings.push(note("blank-rows", `${withThousands(blank)} rows without any value are no features.`));
  const short = [...lengths].filter(([cells]) => cells < width).map(([, alike]) => alike);
  if (short.length > 0) {
    const rows = short.reduce((sum, alike) => sum + alike.rows, 0);
    findings.push(shortDoubt(rows, Math.min(...short.map(({ line }) => line))));
  }
  if (count.doubtful > 0) findings.push(quoteDoubt(count.doubtful, firstDoubtful));
  const isNumber = (column: number): boolean => numbers.isNumber(column);
  return { names, width, mark, sample, rowCount: count.rows, rows, isNumber, findings };
}

const isFilled = ({ cells }: CsvRecord): boolean => cells.some((cell) => cell.trim() !== "");

/** Cells up to the last that is not blank. */
export function filledLength(cells: readonly string[]): number {
  let length = cells.length;
  while (length > 0 && cells[length - 1]!.trim() === "") length -= 1;
  return length;
}

const titleNote = (line: number, first: readonly string[]): FeatureFault =>
  note(
    "lines-before-header",
    `The column names were taken from line ${line}; the lines above it are no rows.`,
    "Nothing, if that is right.",
    first.join(" ").slice(0, 256),
  );

const noHeader = (): FeatureFault =>
  doubt(
    "no-header",
    "The first line holds numbers, so the columns have no names and are called column_1, column_2 and so on.",
    "Put a line with the column names above the first row.",
  );

const renamedDoubt = (renamed: readonly string[]): FeatureFault =>
  doubt(
    "duplicate-column",
    `Several columns have the same name; later ones got a number: ${[...new Set(renamed)].slice(0, 5).join(", ").slice(0, 200)}.`,
    "Give each column its own name.",
  );

const shortDoubt = (rows: number, line: number): FeatureFault =>
  doubt(
    "short-rows",
    `${withThousands(rows)} rows have fewer cells than the header, the first in line ${line}; the missing ones are empty.`,
    "Check these rows; a cell may be missing in the middle.",
  );

const quoteDoubt = (rows: number, line: number): FeatureFault =>
  doubt(
    "stray-quotes",
    `${withThousands(rows)} rows hold a quote that is not closed or not doubled, the first in line ${line}.`,
    "Check these rows, and write a quote inside a quoted cell twice.",
  );

/** A row with cells behind the header's last column: its values may stand in the wrong columns. */
export const tooManyCells = (cells: readonly string[], width: number, line: number): FeatureFault =>
  featureFault(
    "too-many-cells",
    null,
    `${cells.length} cells`,
    `Line ${line} has ${filledLength(cells)} cells, but the header has ${width}; its values may stand in the wrong columns.`,
    "Put the cell that holds the delimiter in quotes.",
  );
