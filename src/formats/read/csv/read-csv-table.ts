import { withThousands } from "../../../core/units/with-thousands.ts";
import { type Converted, measuresDropped, note, type ReaderInput } from "../converted.ts";
import { FeatureWriter } from "../feature-writer.ts";
import { sridName } from "../geometry/read-wkb.ts";
import { NumberText } from "../json-value.ts";
import { decodeText } from "../text/decode-text.ts";
import { unreadableFile } from "../unreadable-file.ts";
import { cellNumber } from "./cell-number.ts";
import { type CsvProfile, csvProfile, filledLength, tooManyCells } from "./csv-profile.ts";
import { type CsvRecord, csvRecords } from "./csv-records.ts";
import { delimiterName, findDelimiter } from "./find-delimiter.ts";
import { findPosition, type PositionColumns } from "./find-position.ts";
import { type RowPosition, rowPosition } from "./row-position.ts";

/**
 * A delimited text as GeoJSON: one feature a row, every column under its own name, the position from a column of geometries, a pair of
 * columns or one column with both numbers. What was taken for what is a finding. Rows with more filled cells than the header, and rows
 * without a usable position, have no geometry and say why. Goes through the bytes several times, a megabyte at once, so that neither the
 * text nor the rows are ever held whole. Throws UnreadableError when no column gives a position.
 */
export function readCsvTable({ bytes, limits, time }: ReaderInput): Converted {
  const { encoding, findings, pieces } = decodeText(bytes);
  const [beginning = ""] = pieces();
  const delimiter = findDelimiter(beginning);
  const records = (): Iterable<CsvRecord> => csvRecords(behind(pieces(), delimiter.start), delimiter.mark);
  const table = csvProfile(records, limits, time);
  const { names, width, mark } = table;
  const where = findPosition(names.slice(0, width), table.sample, mark);
  if (where === null) throw noPosition(table);
  const how = `${delimiterName(delimiter.mark)} between columns, ${encoding}${mark === "," ? ", decimal comma" : ""}`;
  const counts = `${withThousands(table.rowCount)} rows, ${withThousands(width)} columns`;
  const read = note(
    "format-read",
    `Read as CSV (${how}): ${counts}; the position is from ${positionWords(where, names)}.`,
  );
  const writer = writeRows(table, where, bytes.length, limits);
  return {
    format: "CSV",
    bytes: writer.end(),
    findings: [read, ...findings, ...table.findings, ...(writer.droppedMeasures ? [measuresDropped()] : [])],
    rowFaults: writer.rowFaults,
    axesAdvice: axesAdvice(where, names),
  };
}

/** The text without its first characters, which stand in its first piece. */
function* behind(pieces: Iterable<string>, start: number): Generator<string, void, undefined> {
  let skip = start;
  for (const piece of pieces) {
    yield skip === 0 ? piece : piece.slice(skip);
    skip = 0;
  }
}

function writeRows(
  table: CsvProfile,
  where: PositionColumns,
  sourceBytes: number,
  limits: ReaderInput["limits"],
): FeatureWriter {
  const { names, width, mark } = table;
  const isGeometry = where.kind === "wkt" || where.kind === "wkb" || where.kind === "geojson";
  const geometryColumn = isGeometry ? where.column : -1;
  const isNumber = names.map((_, column) => table.isNumber(column));
  const position = ({ cells, line }: CsvRecord): RowPosition => {
    if (filledLength(cells) > width) return { fault: tooManyCells(cells, width, line) };
    const at = rowPosition(cells, where, names, mark);
    return "fault" in at ? { fault: { ...at.fault, reason: `Line ${line}: ${at.fault.reason}` } } : at;
  };
  const system = isGeometry ? firstSystem(table, position) : null;
  const writer = new FeatureWriter(names, system, limits, { rows: table.rowCount, valueBytes: sourceBytes });
  for (const record of table.rows()) {
    const { cells } = record;
    const at = position(record);
    if (!("fault" in at) && sridName(at.srid ?? null) !== system) throw mixedSystems(system, sridName(at.srid ?? null));
    const columns = filledLength(cells) > width ? names.length : width;
    const values: unknown[] = [];
    for (let column = 0; column < columns; column += 1) {
      const cell = cells[column];
      // A long geometry is not kept twice.
      const isKept =
        column === geometryColumn && cell !== undefined && cell.length > limits.textLength && "geometry" in at;
      values.push(isKept ? undefined : cellValue(cell, isNumber[column]!, mark));
    }
    writer.add(values, at);
  }
  return writer;
}

/** An empty cell is null, a cell that the row lacks too; text stays untouched. */
function cellValue(cell: string | undefined, isNumber: boolean, mark: "." | ","): unknown {
  if (cell === undefined || cell === "") return null;
  if (!isNumber) return cell;
  const number = cellNumber(cell, mark);
  return number === null ? null : new NumberText(number);
}

/** The system that the first geometry names; null for none. */
function firstSystem(table: CsvProfile, position: (record: CsvRecord) => RowPosition): string | null {
  for (const record of table.rows()) {
    const at = position(record);
    if (!("fault" in at)) return sridName(at.srid ?? null);
  }
  return null;
}

const mixedSystems = (...systems: readonly (string | null)[]): Error =>
  unreadableFile(
    "mixed-crs",
    "The geometries of the file name more than one coordinate system.",
    "Split the file by SRID.",
    systems.map((system) => system ?? "none").join(", "),
  );

function noPosition({ names, rowCount }: CsvProfile): Error {
  if (rowCount === 0 && names.length === 0)
    return unreadableFile("no-rows", "The file holds no table.", "Check the export.");
  const shown = names.slice(0, 40).join(", ").slice(0, 300);
  return unreadableFile(
    "no-position",
    `No column of the table gives a position. Its columns: ${shown}.`,
    "Add columns longitude and latitude (or x and y with --crs EPSG:n), or a column with geometries as well-known text.",
  );
}

/** A table has no order of its numbers to keep to, only the names of its columns. */
function axesAdvice(where: PositionColumns, names: readonly string[]): string {
  const name = (column: number): string => names[column]!.slice(0, 60);
  switch (where.kind) {
    case "pair":
      return where.isDegrees
        ? `Exchange the names of the columns ${name(where.east)} and ${name(where.north)}, or their values: ${name(where.east)} is read as longitude.`
        : `Exchange the names of the columns ${name(where.east)} and ${name(where.north)}, or their values: ${name(where.east)} is read as x, the longitude or easting.`;
    case "point":
      return `Exchange the two numbers in column ${name(where.column)}: it is read with ${where.isLonFirst ? "longitude" : "latitude"} first.`;
    default:
      return `Write longitude first, then latitude, in the geometries of column ${name(where.column)}.`;
  }
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
