import { writeCsv } from "../csv.ts";
import type { CellValue, LayerTable } from "./layer-table.ts";
import { wkt } from "./wkt.ts";

/**
 * A table as CSV (RFC 4180, formulas guarded as everywhere): its columns, then for points `bough_lon` and `bough_lat`, for other geometry
 * `wkt`. A null and, in text, an empty value are told apart by quotes only.
 */
export function tableCsv({ columns, geometryType, geometries, rowCount }: LayerTable): string {
  const places =
    geometryType === null
      ? []
      : geometryType === "Point"
        ? [
            {
              name: "bough_lon",
              values: geometries.map((one) => (one?.type === "Point" ? (one.coordinates[0] ?? null) : null)),
            },
            {
              name: "bough_lat",
              values: geometries.map((one) => (one?.type === "Point" ? (one.coordinates[1] ?? null) : null)),
            },
          ]
        : [{ name: "wkt", values: geometries.map((one) => (one === null ? null : wkt(one))) }];
  const written: readonly { readonly name: string; readonly values: readonly CellValue[] }[] = [...columns, ...places];
  return writeCsv(
    written.map(({ name }) => name),
    rowsOf(written, rowCount),
  );
}

function* rowsOf(columns: readonly { readonly values: readonly CellValue[] }[], count: number): Generator<CellValue[]> {
  for (let row = 0; row < count; row += 1) yield columns.map(({ values }) => values[row] ?? null);
}
