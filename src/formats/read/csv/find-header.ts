import { cellNumber } from "./cell-number.ts";
import type { CsvRecord } from "./csv-records.ts";
import { POINT_NAMES, POSITION_NAMES, plainName } from "./position-names.ts";

/** Records at the top of a file among which the column names are looked for; our policy. */
const MAX_TITLE_RECORDS = 20;
/** Columns of geometries by name, as common programs write them. */
const GEOMETRY_NAMES: ReadonlySet<string> = new Set([
  "wkt",
  "geom",
  "geometry",
  "thegeom",
  "wkbgeometry",
  "shape",
  "geoshape",
  "geojson",
  "wkb",
]);

/** Place of the record with the column names: the first that names a position, else the first of all; -1 where that holds numbers. */
export function findHeader(records: readonly CsvRecord[]): number {
  const top = records.slice(0, MAX_TITLE_RECORDS);
  const named = top.findIndex(({ cells }) => namesPosition(cells));
  if (named !== -1) return named;
  const first = records[0];
  if (first === undefined) return -1;
  const filled = first.cells.filter((cell) => cell.trim() !== "");
  const isHeader =
    filled.length > 0 && filled.every((cell) => cellNumber(cell, ".") === null && cellNumber(cell, ",") === null);
  return isHeader ? 0 : -1;
}

function namesPosition(cells: readonly string[]): boolean {
  const names = cells.map(plainName);
  if (cells.length > 1 && names.some((name) => GEOMETRY_NAMES.has(name) || POINT_NAMES.has(name))) return true;
  return POSITION_NAMES.some(
    ({ east, north }) => names.some((name) => east.has(name)) && names.some((name) => north.has(name)),
  );
}
