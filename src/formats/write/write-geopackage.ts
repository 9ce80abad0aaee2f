import type { Database, Sqlite3Static } from "@sqlite.org/sqlite-wasm";
import { boxOf, hasZ, joinBoxes } from "./geometry-box.ts";
import { geoPackageGeometry } from "./geopackage-geometry.ts";
import { APPLICATION_ID, CORE_TABLES, indexName, indexTriggers, quoted, USER_VERSION } from "./geopackage-sql.ts";
import type { CellValue, ColumnType, LayerTable } from "./layer-table.ts";

const KEY = "fid";
const GEOMETRY = "geom";

/**
 * Tables as one GeoPackage 1.3 file (OGC 12-128r17): feature tables in EPSG:4326 with a spatial index, the others as attributes, what each column
 * means in the schema extension. `changedOn` is an ISO date and stands for the time of the last change, so that the same tables make the same
 * bytes. Column names must not be `fid` or `geom`.
 */
export async function writeGeoPackage(tables: readonly LayerTable[], changedOn: string): Promise<Uint8Array> {
  const sqlite = await openSqlite();
  const database = new sqlite.oo1.DB(":memory:", "c");
  try {
    database.exec(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${USER_VERSION};`);
    database.exec("BEGIN");
    database.exec(CORE_TABLES);
    for (const table of tables) addTable(database, table, changedOn);
    database.exec("COMMIT");
    return sqlite.capi.sqlite3_js_db_export(database);
  } finally {
    database.close();
  }
}

async function openSqlite(): Promise<Sqlite3Static> {
  const { default: start } = await import("@sqlite.org/sqlite-wasm");
  const quiet = (): void => {};
  return await start({ print: quiet, printErr: quiet });
}

const SQL_TYPES: Readonly<Record<ColumnType, string>> = {
  text: "TEXT",
  integer: "INTEGER",
  real: "DOUBLE",
  boolean: "BOOLEAN",
  date: "DATE",
};

function addTable(database: Database, table: LayerTable, changedOn: string): void {
  const { name, columns, geometryType } = table;
  const definitions = [
    `${quoted(KEY)} INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL`,
    ...(geometryType === null ? [] : [`${quoted(GEOMETRY)} ${geometryType.toUpperCase()}`]),
    ...columns.map((column) => `${quoted(column.name)} ${SQL_TYPES[column.type]}`),
  ];
  database.exec(`CREATE TABLE ${quoted(name)} (${definitions.join(", ")})`);
  register(database, table, changedOn);
  insertRows(database, table);
  if (geometryType !== null) addIndex(database, table);
}

function register(database: Database, table: LayerTable, changedOn: string): void {
  const { name, meaning, geometryType, geometries, columns } = table;
  const present = geometries.filter((geometry) => geometry !== null);
  const box = joinBoxes(present.map(boxOf)) ?? [null, null, null, null];
  database.exec({
    sql: "INSERT INTO gpkg_contents VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
    bind: [
      name,
      geometryType === null ? "attributes" : "features",
      name,
      meaning,
      `${changedOn}T00:00:00.000Z`,
      ...box,
      geometryType === null ? null : 4326,
    ],
  });
  if (geometryType !== null) {
    const withZ = present.filter(hasZ).length;
    const z = withZ === 0 ? 0 : withZ === present.length ? 1 : 2;
    database.exec({
      sql: "INSERT INTO gpkg_geometry_columns VALUES (?, ?, ?, 4326, ?, 0)",
      bind: [name, GEOMETRY, geometryType.toUpperCase(), z],
    });
  }
  for (const column of columns) {
    if (column.meaning === null) continue;
    database.exec({
      sql: "INSERT INTO gpkg_data_columns (table_name, column_name, description) VALUES (?, ?, ?)",
      bind: [name, column.name, column.meaning],
    });
  }
}

function insertRows(database: Database, { name, columns, geometryType, geometries, rowCount }: LayerTable): void {
  const names = [KEY, ...(geometryType === null ? [] : [GEOMETRY]), ...columns.map((column) => column.name)];
  const places = names.map(() => "?").join(", ");
  const statement = database.prepare(
    `INSERT INTO ${quoted(name)} (${names.map(quoted).join(", ")}) VALUES (${places})`,
  );
  try {
    for (let row = 0; row < rowCount; row += 1) {
      const cells: (CellValue | Uint8Array)[] = [row + 1];
      if (geometryType !== null) {
        const geometry = geometries[row] ?? null;
        cells.push(geometry === null ? null : geoPackageGeometry(geometry));
      }
      for (const { values } of columns) cells.push(values[row] ?? null);
      statement.bind(cells).stepReset();
    }
  } finally {
    statement.finalize();
  }
}

function addIndex(database: Database, { name, geometries }: LayerTable): void {
  const index = indexName(name, GEOMETRY);
  database.exec(`CREATE VIRTUAL TABLE ${quoted(index)} USING rtree(id, minx, maxx, miny, maxy)`);
  const statement = database.prepare(`INSERT INTO ${quoted(index)} VALUES (?, ?, ?, ?, ?)`);
  try {
    geometries.forEach((geometry, row) => {
      const box = geometry === null ? null : boxOf(geometry);
      if (box === null) return;
      const [west, south, east, north] = box;
      statement.bind([row + 1, west, east, south, north]).stepReset();
    });
  } finally {
    statement.finalize();
  }
  database.exec(indexTriggers(name, GEOMETRY, KEY));
  database.exec({
    sql: "INSERT INTO gpkg_extensions VALUES (?, ?, 'gpkg_rtree_index', 'http://www.geopackage.org/spec130/#extension_rtree', 'write-only')",
    bind: [name, GEOMETRY],
  });
}
