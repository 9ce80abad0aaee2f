import { parquetMetadataAsync, parquetReadObjects, parquetSchema } from "hyparquet";
import { describe, expect, it } from "vitest";
import { layerTable } from "../../../src/formats/write/layer-table.ts";
import { revisionTables } from "../../../src/formats/write/revision-tables.ts";
import { writeGeoParquet } from "../../../src/formats/write/write-geoparquet.ts";
import { sampleRevision } from "./making.ts";

async function open(bytes: Uint8Array) {
  const buffer = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer;
  const file = { byteLength: buffer.byteLength, slice: (start: number, end?: number) => buffer.slice(start, end) };
  const metadata = await parquetMetadataAsync(file);
  const geo = metadata.key_value_metadata?.find(({ key }) => key === "geo")?.value;
  return { file, metadata, geo: geo === undefined ? null : JSON.parse(geo), rows: await parquetReadObjects({ file }) };
}

describe("writeGeoParquet", () => {
  it("keeps every value and place of the sample town's trees, conflicts and zones", async () => {
    const { tables } = revisionTables(await sampleRevision());
    for (const table of tables.filter(({ name }) => ["trees", "conflicts", "zones"].includes(name))) {
      const { rows, geo } = await open(await writeGeoParquet(table));
      expect(rows.length).toBe(table.rowCount);
      expect(geo).toMatchObject({ version: "1.1.0", primary_column: "geometry" });
      expect(geo.columns.geometry).toMatchObject({ encoding: "WKB", geometry_types: [table.geometryType] });
      for (const { name, type, values } of table.columns) {
        const got = rows.map((row) => (row[name] === undefined ? null : row[name]));
        const plain = got.map((value) => {
          if (value instanceof Date) return value.toISOString().slice(0, 10);
          return type === "integer" && value !== null ? Number(value) : value;
        });
        expect(plain, name).toEqual([...values]);
      }
      const places = table.geometries.map((geometry) => geometry ?? null);
      expect(rows.map((row) => row.geometry ?? null)).toEqual(places);
    }
  }, 60_000);

  it("has the types of the columns, and the geometry as bytes", async () => {
    const columns = (["text", "integer", "real", "boolean", "date"] as const).map((type) => ({
      name: type,
      type,
      meaning: null,
      values: [{ text: "a", integer: 9007199254740991, real: 0.1, boolean: true, date: "1969-12-31" }[type], null],
    }));
    const geometries = [{ type: "Point" as const, coordinates: [-89.4, 43.07, 260.5] }, null];
    const bytes = await writeGeoParquet(layerTable("t", "A table", "Point", geometries, columns, 2));
    const { metadata, geo, rows } = await open(bytes);
    expect(
      parquetSchema(metadata).children.map(({ element }) => [element.name, element.type, element.converted_type]),
    ).toEqual([
      ["text", "BYTE_ARRAY", "UTF8"],
      ["integer", "INT64", undefined],
      ["real", "DOUBLE", undefined],
      ["boolean", "BOOLEAN", undefined],
      ["date", "INT32", "DATE"],
      ["geometry", "BYTE_ARRAY", undefined],
    ]);
    expect(geo.columns.geometry).toEqual({
      encoding: "WKB",
      geometry_types: ["Point Z"],
      edges: "planar",
      bbox: [-89.4, 43.07, -89.4, 43.07],
    });
    expect(rows[0]).toMatchObject({ integer: 9007199254740991n, date: new Date("1969-12-31T00:00:00Z") });
    expect(rows[0]!.geometry).toEqual(geometries[0]);
    expect(metadata.created_by).toBe("Boughline");
  });

  it("writes a table without rows, and one without geometry", async () => {
    const column = { name: "a", type: "text" as const, meaning: null, values: [] };
    const { rows, geo } = await open(await writeGeoParquet(layerTable("t", "A table", "Polygon", [], [column], 0)));
    expect(rows).toEqual([]);
    expect(geo.columns.geometry.geometry_types).toEqual([]);
    const plain = await open(
      await writeGeoParquet(layerTable("t", "A table", null, [], [{ ...column, values: ["x"] }], 1)),
    );
    expect(plain.geo).toBeNull();
    expect(plain.rows).toEqual([{ a: "x" }]);
  });
});
