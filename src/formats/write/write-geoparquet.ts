import type { Geometry } from "geojson";
import type { SchemaElement } from "hyparquet";
import { boxOf, hasZ, joinBoxes } from "./geometry-box.ts";
import type { CellValue, ColumnType, LayerTable, TableColumn } from "./layer-table.ts";
import { wkb } from "./wkb.ts";

const GEOMETRY_COLUMN = "geometry";
const MS_PER_DAY = 86_400_000;

/**
 * A table as GeoParquet 1.1 (Snappy): its columns, then `geometry` as well-known binary. The coordinate system is the format's default,
 * longitude and latitude on WGS 84 (OGC:CRS84). A table without geometry becomes plain Parquet.
 */
export async function writeGeoParquet(table: LayerTable): Promise<Uint8Array> {
  const { parquetWriteBuffer } = await import("hyparquet-writer");
  const columnData = table.columns.map((column) => ({ name: column.name, data: cellsOf(column) }));
  const schema: SchemaElement[] = table.columns.map(elementOf);
  if (table.geometryType !== null) {
    columnData.push({
      name: GEOMETRY_COLUMN,
      data: table.geometries.map((geometry) => (geometry === null ? null : wkb(geometry))),
    });
    schema.push({ name: GEOMETRY_COLUMN, type: "BYTE_ARRAY", repetition_type: "OPTIONAL" });
  }
  const buffer = parquetWriteBuffer({
    columnData,
    schema: [{ name: "schema", num_children: schema.length }, ...schema],
    createdBy: "Boughline",
    kvMetadata: table.geometryType === null ? [] : [{ key: "geo", value: JSON.stringify(geoMetadata(table)) }],
  });
  return new Uint8Array(buffer);
}

const ELEMENTS: Readonly<Record<ColumnType, Pick<SchemaElement, "type" | "converted_type">>> = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  integer: { type: "INT64" },
  real: { type: "DOUBLE" },
  boolean: { type: "BOOLEAN" },
  date: { type: "INT32", converted_type: "DATE" },
};

const elementOf = ({ name, type }: TableColumn): SchemaElement => ({
  name,
  ...ELEMENTS[type],
  repetition_type: "OPTIONAL",
});

function cellsOf({ type, values }: TableColumn): unknown[] {
  if (type === "integer") return values.map((value) => (value === null ? null : BigInt(value)));
  if (type === "date") return values.map((value) => (value === null ? null : dayOf(value)));
  return [...values];
}

/** Days since 1970-01-01 of an ISO date. */
const dayOf = (value: CellValue): number => Math.round(Date.parse(`${value}T00:00:00Z`) / MS_PER_DAY);

/** The `geo` member of the file's metadata (GeoParquet 1.1.0). */
function geoMetadata({ geometries }: LayerTable): object {
  const present = geometries.filter((geometry) => geometry !== null);
  const bbox = joinBoxes(present.map(boxOf));
  return {
    version: "1.1.0",
    primary_column: GEOMETRY_COLUMN,
    columns: {
      [GEOMETRY_COLUMN]: {
        encoding: "WKB",
        geometry_types: [...new Set(present.map(typeName))].sort(),
        edges: "planar",
        ...(bbox === null ? {} : { bbox }),
      },
    },
  };
}

const typeName = (geometry: Geometry): string => `${geometry.type}${hasZ(geometry) ? " Z" : ""}`;
