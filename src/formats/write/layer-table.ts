import type { Geometry } from "geojson";

/** Types a column of a table file can have: all of them exist in every format (`date` is text in CSV, a date-time in FlatGeobuf). */
export type ColumnType = "text" | "integer" | "real" | "boolean" | "date";

export type CellValue = string | number | boolean | null;

/** One column: every row's value, null where the feature has none. */
export interface TableColumn {
  /** Unique in its table without regard to case. */
  readonly name: string;
  readonly type: ColumnType;
  /** What it means, one sentence with its unit; null for a city's own column. */
  readonly meaning: string | null;
  /** `integer` holds whole numbers up to 2^53, `date` text `YYYY-MM-DD`. */
  readonly values: readonly CellValue[];
}

export type LayerGeometryType = "Point" | "Polygon" | "MultiPolygon" | "Geometry";

/** A table ready to be written in any format, columns first. */
export interface LayerTable {
  readonly name: string;
  /** What the table holds, one sentence. */
  readonly meaning: string;
  /** Null for a table without geometry; `Geometry` where kinds are mixed. */
  readonly geometryType: LayerGeometryType | null;
  /** Longitude and latitude on WGS 84, one a row; empty for a table without geometry. */
  readonly geometries: readonly (Geometry | null)[];
  readonly columns: readonly TableColumn[];
  readonly rowCount: number;
}

/** A table; where a geometry is not of the expected type, the table's is `Geometry`. */
export function layerTable(
  name: string,
  meaning: string,
  expected: LayerGeometryType | null,
  geometries: readonly (Geometry | null)[],
  columns: readonly TableColumn[],
  rowCount: number,
): LayerTable {
  const isAsExpected = geometries.every((geometry) => geometry === null || geometry.type === expected);
  const geometryType = expected === null || isAsExpected ? expected : "Geometry";
  return { name, meaning, geometryType, geometries, columns, rowCount };
}
