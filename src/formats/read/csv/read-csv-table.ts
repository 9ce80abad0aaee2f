import { withThousands } from "../../../core/units/with-thousands.ts";
import { type FeatureFault, featureFault } from "../../geojson/feature-fault.ts";
import { type Converted, doubt, measuresDropped, note, type ReaderInput } from "../converted.ts";
import { FeatureWriter } from "../feature-writer.ts";
import { sridName } from "../geometry/read-wkb.ts";
import { decodeText } from "../text/decode-text.ts";
import { uniqueNames } from "../unique-names.ts";
import { pastLimit, unreadableFile } from "../unreadable-file.ts";
import { columnValues } from "./column-values.ts";
import { type CsvRecord, csvRecords } from "./csv-records.ts";
import { decimalMark } from "./decimal-mark.ts";
import { delimiterName, findDelimiter } from "./find-delimiter.ts";
import { findHeader } from "./find-header.ts";
import { findPosition, type PositionColumns } from "./find-position.ts";
import { rowPosition } from "./row-position.ts";

/** A table cut into header and rows, before its position is looked for. */
interface Table {
  readonly names: readonly string[];
  /** Columns the header has; cells behind them are strays. */
  readonly width: number;
  readonly rows: readonly CsvRecord[];
  readonly findings: FeatureFault[];
}

/**
 * A delimited text as GeoJSON: one feature a row, every column under its own name, the position from a column of geometries, a pair of
 * columns or one column with both numbers. What was taken for what is a finding. Rows with more filled cells than the header, and rows
 * without a usable position, have no geometry and say why. Throws UnreadableError when no column gives a position.
 */
export function readCsvTable({ bytes, limits }: ReaderInput): Converted {
  const { text, encoding, findings } = decodeText(bytes, limits);
  const delimiter = findDelimiter(text);
  const records: CsvRecord[] = [];
  const body = delimiter.start === 0 ? text : text.slice(delimiter.start);
  for (const record of csvRecords(body, delimiter.mark)) {
    if (record.cells.length > limits.columns) {
      throw pastLimit(
        `${withThousands(record.cells.length)} columns in line ${record.line}`,
        limits.columns,
        "Check the delimiter.",
      );
    }
    records.push(record);
    if (records.length > limits.rows)
      throw pastLimit(`more than ${withThousands(limits.rows)} rows`, limits.rows, "Split the file.");
  }
  const table = tableOf(records);
  const mark = decimalMark(table.rows, table.width);
  const where = findPosition(table.names.slice(0, table.width), table.rows, mark);
  if (where === null) throw noPosition(table);
  const how = `${delimiterName(delimiter.mark)} between columns, ${encoding}${mark === "," ? ", decimal comma" : ""}`;
  const counts = `${withThousands(table.rows.length)} rows, ${withThousands(table.width)} columns`;
  const read = note(
    "format-read",
    `Read as CSV (${how}): ${counts}; the position is from ${positionWords(where, table.names)}.`,
  );
  const writer = writeRows(table, where, mark, limits);
  return {
    format: "CSV",
    bytes: writer.end(),
    findings: [read, ...findings, ...table.findings, ...rowFindings(table, writer)],
    rowFaults: writer.rowFaults,
  };
}

function tableOf(records: readonly CsvRecord[]): Table {
  const headerAt = findHeader(records);
  const header = headerAt === -1 ? [] : records[headerAt]!.cells;
  const rows = records.slice(headerAt + 1).filter(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  const blank = records.length - headerAt - 1 - rows.length;
  const widest = rows.reduce((most, { cells }) => Math.max(most, filledLength(cells)), 0);
  const width = headerAt === -1 ? widest : Math.max(filledLength(header), Math.min(header.length, widest));
  const { names, renamed } = uniqueNames(header.slice(0, width), widest);
  const findings: FeatureFault[] = [];
  if (headerAt > 0) {
    const reason = `The column names were taken from line ${records[headerAt]!.line}; the lines above it are no rows.`;
    findings.push(
      note("lines-before-header", reason, "Nothing, if that is right.", records[0]!.cells.join(" ").slice(0, 256)),
    );
  }
  if (headerAt === -1 && records.length > 0) {
    const reason =
      "The first line holds numbers, so the columns have no names and are called column_1, column_2 and so on.";
    findings.push(doubt("no-header", reason, "Put a line with the column names above the first row."));
  }
  if (renamed.length > 0) {
    const shown = [...new Set(renamed)].slice(0, 5).join(", ").slice(0, 200);
    findings.push(
      doubt(
        "duplicate-column",
        `Several columns have the same name; later ones got a number: ${shown}.`,
        "Give each column its own name.",
      ),
    );
  }
  if (blank > 0) findings.push(note("blank-rows", `${withThousands(blank)} rows without any value are no features.`));
  return { names, width, rows, findings };
}

function writeRows(
  table: Table,
  where: PositionColumns,
  mark: "." | ",",
  limits: ReaderInput["limits"],
): FeatureWriter {
  const { names, width, rows } = table;
  const values = names.map((_, column) => columnValues(rows, column, mark));
  const isGeometry = where.kind === "wkt" || where.kind === "wkb" || where.kind === "geojson";
  const geometryColumn = isGeometry ? where.column : -1;
  const systems = new Set<string | null>();
  const positions = rows.map(({ cells, line }) => {
    if (filledLength(cells) > width) return { fault: tooManyCells(cells, width, line) };
    const position = rowPosition(cells, where, names, mark);
    if ("fault" in position) return { fault: inLine(position.fault, line) };
    systems.add(sridName(position.srid ?? null));
    return position;
  });
  if (systems.size > 1) {
    throw unreadableFile(
      "mixed-crs",
      "The geometries of the file name more than one coordinate system.",
      "Split the file by SRID.",
      [...systems].map((system) => system ?? "none").join(", "),
    );
  }
  const writer = new FeatureWriter(names, [...systems][0] ?? null, limits);
  rows.forEach(({ cells }, row) => {
    const columns = filledLength(cells) > width ? names.length : width;
    const written = names.slice(0, columns).map((_, column) => {
      const cell = cells[column];
      // A long geometry is not kept twice.
      if (
        column === geometryColumn &&
        cell !== undefined &&
        cell.length > limits.textLength &&
        "geometry" in positions[row]!
      )
        return undefined;
      return values[column]!(cell);
    });
    writer.add(written, positions[row]!);
  });
  return writer;
}

function rowFindings({ rows, width }: Table, writer: FeatureWriter): FeatureFault[] {
  const findings: FeatureFault[] = [];
  const short = rows.filter(({ cells }) => cells.length < width);
  if (short.length > 0) {
    const reason = `${withThousands(short.length)} rows have fewer cells than the header, the first in line ${short[0]!.line}; the missing ones are empty.`;
    findings.push(doubt("short-rows", reason, "Check these rows; a cell may be missing in the middle."));
  }
  const doubtful = rows.filter(({ isDoubtful }) => isDoubtful);
  if (doubtful.length > 0) {
    const reason = `${withThousands(doubtful.length)} rows hold a quote that is not closed or not doubled, the first in line ${doubtful[0]!.line}.`;
    findings.push(doubt("stray-quotes", reason, "Check these rows, and write a quote inside a quoted cell twice."));
  }
  if (writer.droppedMeasures) findings.push(measuresDropped());
  return findings;
}

/** Cells up to the last that is not blank. */
function filledLength(cells: readonly string[]): number {
  let length = cells.length;
  while (length > 0 && cells[length - 1]!.trim() === "") length -= 1;
  return length;
}

const tooManyCells = (cells: readonly string[], width: number, line: number): FeatureFault =>
  featureFault(
    "too-many-cells",
    null,
    `${cells.length} cells`,
    `Line ${line} has ${filledLength(cells)} cells, but the header has ${width}; its values may stand in the wrong columns.`,
    "Put the cell that holds the delimiter in quotes.",
  );

const inLine = (fault: FeatureFault, line: number): FeatureFault => ({
  ...fault,
  reason: `Line ${line}: ${fault.reason}`,
});

function noPosition({ names, rows }: Table): Error {
  if (rows.length === 0 && names.length === 0)
    return unreadableFile("no-rows", "The file holds no table.", "Check the export.");
  const shown = names.slice(0, 40).join(", ").slice(0, 300);
  return unreadableFile(
    "no-position",
    `No column of the table gives a position. Its columns: ${shown}.`,
    "Add columns longitude and latitude (or x and y with --crs EPSG:n), or a column with geometries as well-known text.",
  );
}

function positionWords(where: PositionColumns, names: readonly string[]): string {
  const name = (column: number): string => names[column]!.slice(0, 60);
  switch (where.kind) {
    case "pair":
      return where.isDegrees
        ? `${name(where.east)} (longitude) and ${name(where.north)} (latitude)`
        : `${name(where.east)} (x) and ${name(where.north)} (y)`;
    case "point":
      return `${name(where.column)} (${where.isLonFirst ? "longitude first" : "latitude first"})`;
    case "wkt":
      return `${name(where.column)} (well-known text)`;
    case "geojson":
      return `${name(where.column)} (GeoJSON)`;
    case "wkb":
      return `${name(where.column)} (well-known binary)`;
  }
}
