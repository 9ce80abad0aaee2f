import { fromHex } from "../geometry/from-hex.ts";
import { looksLikeWkt } from "../geometry/read-wkt.ts";
import { coordinateNumber } from "./cell-number.ts";
import type { CsvRecord } from "./csv-records.ts";
import { POINT_NAMES, POSITION_NAMES, plainName } from "./position-names.ts";

/** Which columns of a table say where a row is. */
export type PositionColumns =
  | { readonly kind: "pair"; readonly east: number; readonly north: number; readonly isDegrees: boolean }
  | { readonly kind: "point"; readonly column: number; readonly isLonFirst: boolean }
  | { readonly kind: "wkt" | "geojson" | "wkb"; readonly column: number };

const SAMPLE_ROWS = 1000;
/** Filled cells looked at per column for a geometry; one is enough, the others guard against a single odd cell. */
const SAMPLE_CELLS = 20;

/**
 * The columns that hold the position: one of geometries, recognized by its values; else a pair by its names, longitude and latitude
 * before x and y; else one column with both numbers. Null when there is none.
 */
export function findPosition(
  names: readonly string[],
  rows: readonly CsvRecord[],
  mark: "." | ",",
): PositionColumns | null {
  return findGeometry(names.length, rows) ?? findPair(names, rows, mark) ?? findPoint(names, rows);
}

function findGeometry(columns: number, rows: readonly CsvRecord[]): PositionColumns | null {
  for (let column = 0; column < columns; column += 1) {
    const cells = filledCells(rows, column, SAMPLE_CELLS);
    if (mostly(cells, looksLikeWkt)) return { kind: "wkt", column };
    if (mostly(cells, looksLikeGeoJson)) return { kind: "geojson", column };
    if (mostly(cells, looksLikeHexWkb)) return { kind: "wkb", column };
  }
  return null;
}

function findPair(names: readonly string[], rows: readonly CsvRecord[], mark: "." | ","): PositionColumns | null {
  const plain = names.map(plainName);
  const isNumeric = (column: number): boolean =>
    mostly(filledCells(rows, column, SAMPLE_ROWS), (cell) => coordinateNumber(cell, mark) !== null);
  return pairOf(plain, isNumeric) ?? pairOf(plain, (column) => filledCells(rows, column, 1).length === 0);
}

function pairOf(plain: readonly string[], isNumeric: (column: number) => boolean): PositionColumns | null {
  for (const { east, north, isDegrees } of POSITION_NAMES) {
    const eastColumn = plain.findIndex((name, column) => east.has(name) && isNumeric(column));
    const northColumn = plain.findIndex((name, column) => north.has(name) && isNumeric(column));
    if (eastColumn !== -1 && northColumn !== -1)
      return { kind: "pair", east: eastColumn, north: northColumn, isDegrees };
  }
  return null;
}

function findPoint(names: readonly string[], rows: readonly CsvRecord[]): PositionColumns | null {
  for (let column = 0; column < names.length; column += 1) {
    const name = plainName(names[column]!);
    if (!POINT_NAMES.has(name)) continue;
    const points = filledCells(rows, column, SAMPLE_ROWS).map(pointNumbers);
    if (points.length === 0 || points.filter((point) => point !== null).length * 2 < points.length) continue;
    const isLonFirst =
      name.startsWith("lon") ||
      name.startsWith("lng") ||
      points.some((point) => point !== null && Math.abs(point[0]) > 90);
    return { kind: "point", column, isLonFirst };
  }
  return null;
}

/** The two numbers of `40.7, -73.9`, `(40.7, -73.9)` or an address followed by that in brackets; null for anything else. */
export function pointNumbers(cell: string): [number, number] | null {
  const text = cell.slice(-256).trim();
  const open = text.lastIndexOf("(");
  const inside = open !== -1 && text.endsWith(")") ? text.slice(open + 1, -1) : text;
  const parts = inside.split(inside.includes(",") ? "," : " ").filter((part) => part.trim() !== "");
  if (parts.length !== 2) return null;
  const [first, second] = [coordinateNumber(parts[0]!, "."), coordinateNumber(parts[1]!, ".")];
  return first === null || second === null ? null : [first, second];
}

function filledCells(rows: readonly CsvRecord[], column: number, most: number): string[] {
  const cells: string[] = [];
  for (let row = 0; row < rows.length && row < SAMPLE_ROWS && cells.length < most; row += 1) {
    const cell = rows[row]!.cells[column];
    if (cell !== undefined && cell.trim() !== "") cells.push(cell);
  }
  return cells;
}

/** Whether at least half of the cells, and one at all, pass. */
const mostly = (cells: readonly string[], passes: (cell: string) => boolean): boolean =>
  cells.length > 0 && cells.filter(passes).length * 2 >= cells.length;

const looksLikeGeoJson = (cell: string): boolean => {
  const start = cell.slice(0, 256).trimStart();
  return start.startsWith("{") && (start.includes('"type"') || start.includes('"coordinates"'));
};

/** Byte order 00 or 01 and a kind below 256 with or without the flags of the extended form. */
const looksLikeHexWkb = (cell: string): boolean => {
  if (cell.length < 18) return false;
  const bytes = fromHex(cell.slice(0, 10));
  if (bytes === null || bytes[0]! > 1) return false;
  const [low, high] = bytes[0] === 1 ? [bytes[1]!, bytes[4]!] : [bytes[4]!, bytes[1]!];
  return low > 0 && (high & 0x1f) === 0;
};
