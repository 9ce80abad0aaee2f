import type { Geometry } from "geojson";
import { type FeatureFault, featureFault } from "../../geojson/feature-fault.ts";
import { fromHex } from "../geometry/from-hex.ts";
import { GeometryError, noGeometry, type ReadGeometry, readGeometrySafely } from "../geometry/geometry-fault.ts";
import { readWkb } from "../geometry/read-wkb.ts";
import { readWkt } from "../geometry/read-wkt.ts";
import { LIMITS } from "../limits.ts";
import { coordinateNumber } from "./cell-number.ts";
import { type PositionColumns, pointNumbers } from "./find-position.ts";

/** Where a row is, or why it has no place; `line` is its line in the file and `srid` what its geometry names. */
export type RowPosition = ReadGeometry & { readonly srid?: number | null };

/** The position in a row's cells. */
export function rowPosition(
  cells: readonly string[],
  where: PositionColumns,
  names: readonly string[],
  mark: "." | ",",
): RowPosition {
  if (where.kind === "pair") return pairPosition(cells, where, names, mark);
  const cell = cells[where.column] ?? "";
  if (cell.trim() === "") return noGeometry(names[where.column]);
  switch (where.kind) {
    case "point": {
      const numbers = pointNumbers(cell);
      if (numbers === null) return notANumber(names[where.column]!, cell);
      return point(where.isLonFirst ? numbers[0] : numbers[1], where.isLonFirst ? numbers[1] : numbers[0]);
    }
    case "wkt":
      return readGeometrySafely(() => readWkt(cell), cell);
    case "wkb":
      return readGeometrySafely(() => {
        const bytes = fromHex(cell.trim());
        if (bytes === null) throw new GeometryError("The geometry is no hexadecimal text.");
        return readWkb(bytes);
      }, cell);
    case "geojson":
      return readGeometrySafely(() => geoJsonText(cell), cell);
  }
}

function pairPosition(
  cells: readonly string[],
  where: Extract<PositionColumns, { kind: "pair" }>,
  names: readonly string[],
  mark: "." | ",",
): RowPosition {
  const [east, north] = [cells[where.east] ?? "", cells[where.north] ?? ""];
  const [x, y] = [coordinateNumber(east, mark), coordinateNumber(north, mark)];
  if (x !== null && y !== null) return point(x, y);
  const [column, cell] = x === null ? [where.east, east] : [where.north, north];
  if (cell.trim() !== "") return notANumber(names[column]!, cell);
  const reason = `The row has no position: ${names[column]!.slice(0, 80)} is empty.`;
  return { fault: { ...positionFault(names[column]!, "", reason), code: "no-geometry", value: null } };
}

/** A geometry's own JSON; its shape is checked with all others later. */
function geoJsonText(cell: string): RowPosition {
  if (bracketDepth(cell) > LIMITS.depth)
    throw new GeometryError(`The geometry is nested more than ${LIMITS.depth} deep.`);
  let value: unknown;
  try {
    value = JSON.parse(cell);
  } catch {
    throw new GeometryError("The geometry is no JSON.");
  }
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, "type"))
    throw new GeometryError("The geometry has no type.");
  return { geometry: value as Geometry, vertices: Math.ceil(cell.length / 8) };
}

function bracketDepth(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at];
    if (letter === "[" || letter === "{") deepest = Math.max(deepest, ++depth);
    else if (letter === "]" || letter === "}") depth -= 1;
  }
  return deepest;
}

const point = (x: number, y: number): RowPosition => ({
  geometry: { type: "Point", coordinates: [x, y] },
  vertices: 1,
});

const notANumber = (name: string, cell: string): RowPosition => ({
  fault: positionFault(name, cell, `The row has no position: ${name.slice(0, 80)} is no number.`),
});

const positionFault = (name: string, cell: string, reason: string): FeatureFault =>
  featureFault(
    "bad-position",
    name.slice(0, 256),
    cell,
    reason,
    "Give the row its position, or leave it out of the file.",
  );
