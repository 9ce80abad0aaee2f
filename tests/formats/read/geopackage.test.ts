import sqlite3InitModule from "@sqlite.org/sqlite-wasm";
import { describe, expect, it } from "vitest";
import { codes, fixture, readAs, refusal } from "./reading.ts";

const META = `
  CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT, srs_id INTEGER PRIMARY KEY, organization TEXT, organization_coordsys_id INTEGER, definition TEXT);
  CREATE TABLE gpkg_contents (table_name TEXT PRIMARY KEY, data_type TEXT, identifier TEXT, srs_id INTEGER);
  CREATE TABLE gpkg_geometry_columns (table_name TEXT, column_name TEXT, geometry_type_name TEXT, srs_id INTEGER, z INTEGER, m INTEGER);
  INSERT INTO gpkg_spatial_ref_sys VALUES ('a', 4326, 'EPSG', 4326, 'x'), ('b', 0, 'NONE', 0, 'undefined');`;

/** A point at longitude 1, latitude 2 in a GeoPackage blob (OGC 12-128r18 section 2.1.3): header, SRS 4326, well-known binary. */
const POINT = "X'47500001E61000000101000000000000000000F03F0000000000000040'";

const register = (table: string, srs = 4326): string =>
  `INSERT INTO gpkg_contents VALUES ('${table.replaceAll("'", "''")}', 'features', 'x', ${srs});
   INSERT INTO gpkg_geometry_columns VALUES ('${table.replaceAll("'", "''")}', 'geom', 'POINT', ${srs}, 0, 0);`;

/** The bytes of a database made by statements, by the library itself. */
async function database(sql: string): Promise<Uint8Array> {
  const sqlite = await sqlite3InitModule();
  const db = new sqlite.oo1.DB(":memory:");
  try {
    db.exec(sql);
    return sqlite.capi.sqlite3_js_db_export(db.pointer!);
  } finally {
    db.close();
  }
}

const geopackage = (sql: string): Promise<Uint8Array> => database(META + sql);
const read = async (sql: string) => readAs("a.gpkg", await geopackage(sql), { layer: "trees" });

describe("GeoPackage", () => {
  it("keeps every kind of value", async () => {
    const { features } = await read(`
      CREATE TABLE t (fid INTEGER PRIMARY KEY, geom BLOB, big INTEGER, real REAL, flag BOOLEAN, txt TEXT, nul TEXT, blb BLOB);
      INSERT INTO t VALUES (7, ${POINT}, 9223372036854775807, 0.1, 1, 'a' || char(0) || 'é', NULL, X'FF00');
      ${register("t")}`);
    expect(features[0]!.properties).toEqual({
      fid: 7,
      big: "9223372036854775807",
      real: 0.1,
      flag: true,
      txt: "a\u0000é",
      nul: null,
      blb: "/wA=",
    });
    expect(features[0]!.geometry).toEqual({ type: "Point", coordinates: [1, 2] });
  });

  it("sets rows aside whose geometry is missing, empty, curved or none", async () => {
    const { setAside, counts } = await read(`
      CREATE TABLE t (fid INTEGER PRIMARY KEY, geom BLOB);
      INSERT INTO t VALUES (1, NULL), (2, X'47500011E6100000'), (3, X'47500001E6100000010800000000000000'), (4, 'text'), (5, ${POINT});
      ${register("t")}`);
    expect(counts).toMatchObject({ used: 1, setAside: 4 });
    expect(setAside.map(({ finding }) => finding.reason)).toEqual([
      "The row has no geometry.",
      "The geometry is empty.",
      "A CircularString cannot be read, only straight lines.",
      "The geometry is no GeoPackage geometry.",
    ]);
  });

  it("takes SQL in names for names", async () => {
    const { features, fault } = await read(`
      CREATE TABLE "t""; DROP TABLE gpkg_contents; --" (fid INTEGER PRIMARY KEY, geom BLOB, "a"" FROM sqlite_schema; --" TEXT, "__proto__" TEXT);
      INSERT INTO "t""; DROP TABLE gpkg_contents; --" VALUES (1, ${POINT}, 'x', 'y');
      ${register('t"; DROP TABLE gpkg_contents; --')}`);
    expect(fault).toBeNull();
    expect(Object.entries(features[0]!.properties)).toEqual([
      ["fid", 1],
      ['a" FROM sqlite_schema; --', "x"],
      ["__proto__", "y"],
    ]);
  });

  it("reads no views, no virtual tables, and no tables it does not have", async () => {
    const sql = `CREATE TABLE t (fid INTEGER PRIMARY KEY, geom BLOB); CREATE VIEW v AS SELECT * FROM t; CREATE VIRTUAL TABLE f USING fts5(geom);`;
    for (const table of ["v", "f", "missing", "sqlite_schema"]) {
      expect(await refusal("a.gpkg", await geopackage(sql + register(table)))).toBe("no-features");
    }
  });

  it("runs no triggers or generated columns", async () => {
    const { features } = await read(`
      CREATE TABLE t (fid INTEGER PRIMARY KEY, geom BLOB, g TEXT AS (hex(zeroblob(1000))));
      CREATE TRIGGER boom AFTER INSERT ON t BEGIN SELECT 1; END;
      INSERT INTO t (fid, geom) VALUES (1, ${POINT});
      ${register("t")}`);
    expect(features[0]!.properties).toEqual({ fid: 1 });
  });

  it("says that an undefined system was taken for longitude and latitude", async () => {
    expect(
      codes(
        await read(
          `CREATE TABLE t (fid INTEGER PRIMARY KEY, geom BLOB); INSERT INTO t VALUES (1, ${POINT}); ${register("t", 0)}`,
        ),
      ),
    ).toEqual(["format-read", "no-crs"]);
  });

  it("reads a file in write-ahead mode, and says what may be missing", async () => {
    const bytes = fixture("areas.gpkg").slice();
    bytes.fill(2, 18, 20);
    const result = await readAs("areas.gpkg", bytes);
    expect([result.counts.used, codes(result)[0]]).toEqual([3, "journal-not-read"]);
    expect(bytes[18]).toBe(2);
  });

  it("refuses other databases, damaged pages and files cut short", async () => {
    expect(await refusal("a.gpkg", await database("CREATE TABLE t (a)"))).toBe("not-geopackage");
    const bytes = fixture("areas.gpkg");
    expect(await refusal("a.gpkg", bytes.slice(0, 5000))).toBe("damaged");
    expect(await refusal("a.gpkg", bytes.slice(0, 100))).toBe("damaged");
    const holed = bytes.slice();
    holed.fill(0xff, 512, bytes.length);
    expect(await refusal("a.gpkg", holed)).toBe("damaged");
  });
});
