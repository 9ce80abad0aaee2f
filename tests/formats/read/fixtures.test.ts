import { describe, expect, it } from "vitest";
import type { GeoJsonRead } from "../../../src/formats/geojson/geojson-read.ts";
import { codes, farthest, plainCoordinates, readFixture, sourceFeatures } from "./reading.ts";

/**
 * Degrees. Coordinates in feet are converted and rounded to nine decimals, which is at most 5e-10 off; proj4 and PROJ agree to 6e-7 feet,
 * 2e-12 degrees. Files in degrees keep them to the last bit, but for text formats with 15 digits.
 */
const TOLERANCE_DEG = 1e-9;

/** Every feature read has the geometry and the values of its source; `booleans` says how a format without booleans writes them. */
function expectSame(
  read: GeoJsonRead,
  source: string,
  change: (name: string, value: unknown) => unknown = (_, value) => value,
): void {
  const wanted = sourceFeatures(source);
  for (const { properties, geometry } of read.features) {
    const key = Object.keys([...wanted.values()][0]!.properties!)[0]!;
    const feature = wanted.get(properties[key]);
    expect(feature, String(properties[key])).toBeDefined();
    expect(farthest(plainCoordinates(geometry), plainCoordinates(feature!.geometry))).toBeLessThanOrEqual(
      TOLERANCE_DEG,
    );
    const expected = Object.fromEntries(
      Object.entries(feature!.properties!).map(([name, value]) => [name, change(name, value)]),
    );
    expect(properties).toMatchObject(expected);
    const added = Object.keys(properties).filter((name) => !Object.hasOwn(expected, name));
    expect(added.every((name) => ["fid", "WKT", "X", "Y"].includes(name))).toBe(true);
  }
}

describe("files that ogr2ogr wrote", () => {
  it.each(["areas.gpkg", "areas-feet.gpkg", "areas.fgb", "areas-feet.fgb"])(
    "%s: ids, values and geometry",
    async (name) => {
      const read = await readFixture(name, "buildings");
      expect(read.counts).toEqual({ features: 3, used: 3, setAside: 0, filteredOut: 0 });
      // FlatGeobuf has no dates: ogr2ogr writes times.
      const isFgb = name.endsWith(".fgb");
      expectSame(read, "areas.geojson", (column, value) =>
        isFgb && column === "built" && value !== null ? `${value}T00:00:00` : value,
      );
      expect(codes(read)[0]).toBe("format-read");
      expect(read.reprojectedFrom).toBe(name.includes("feet") ? "EPSG:2263" : null);
    },
  );

  // Shapefiles have no booleans: ogr2ogr writes 1 and 0.
  const asNumber = (_: string, value: unknown): unknown => (typeof value === "boolean" ? Number(value) : value);

  it.each(["areas.zip", "areas-feet.zip"])("%s: ids, values and geometry", async (name) => {
    const read = await readFixture(name, "buildings");
    expect(read.counts).toEqual({ features: 3, used: 3, setAside: 0, filteredOut: 0 });
    expectSame(read, "areas.geojson", asNumber);
    expect(read.reprojectedFrom === null).toBe(!name.includes("feet"));
  });

  it("areas-wkt.csv: values as ogr2ogr writes them", async () => {
    const read = await readFixture("areas-wkt.csv", "buildings");
    expectSame(read, "areas.geojson", (column, value) => {
      if (column === "built" && typeof value === "string") return value.replaceAll("-", "/");
      // One number of the column is past 2^53, so all of it stays text.
      if (column === "big") return String(value);
      return asNumber(column, value);
    });
    expect(read.findings[0]!.reason).toBe(
      "Read as CSV (comma between columns, UTF-8): 3 rows, 9 columns; the position is from WKT (well-known text).",
    );
  });

  it.each(["trees-latin1.zip", "trees-xy.csv"])(
    "%s: a row without a place is set aside with all its values",
    async (name) => {
      const read = await readFixture(name, "trees");
      expect(read.counts).toEqual({ features: 3, used: 2, setAside: 1, filteredOut: 0 });
      expectSame(read, "trees.geojson");
      expect(read.setAside.map(({ ordinal, finding }) => [ordinal, finding.code])).toEqual([[2, "no-geometry"]]);
      const { start, end } = read.ranges;
      const text = new TextDecoder().decode(read.bytes.subarray(start[2], end[2]));
      expect(JSON.parse(text)).toMatchObject({
        geometry: null,
        properties: { tree_id: "T-0003", species: "Ginkgo biloba", note: "no place" },
      });
    },
  );

  it.each(["roads.fgb", "roads.zip"])("%s: lines keep their heights", async (name) => {
    const read = await readFixture(name, "roads");
    expect(read.counts.used).toBe(2);
    expectSame(read, "roads.geojson");
    expect(plainCoordinates(read.features[0]!.geometry)).toEqual([
      [
        [-73.98, 40.75, 12.5],
        [-73.97, 40.751, 13.5],
      ],
    ]);
  });

  it("town.gpkg: the table is the one asked for or called like the layer, else the file asks", async () => {
    const named = await readFixture("town.gpkg", "buildings");
    expect([named.counts.used, ...codes(named)]).toEqual([3, "format-read", "table-chosen"]);
    const trees = await readFixture("town.gpkg", "trees", { table: "street_trees" });
    expect(trees.counts).toEqual({ features: 3, used: 2, setAside: 1, filteredOut: 0 });
    expectSame(trees, "trees.geojson");
    const unsaid = await readFixture("town.gpkg", "trees");
    expect([unsaid.fault?.code, unsaid.fault?.reason]).toEqual([
      "several-tables",
      "The GeoPackage holds 2 tables: buildings, street_trees.",
    ]);
    const wrong = await readFixture("town.gpkg", "trees", { table: "nope'; DROP TABLE buildings; --" });
    expect(wrong.fault?.code).toBe("no-such-table");
  });
});
