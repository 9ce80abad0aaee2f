import type { Database } from "@sqlite.org/sqlite-wasm";
import { coordinateSystem } from "../../crs/coordinate-system.ts";
import { damaged, unreadableFile } from "../unreadable-file.ts";

/** A table of features, from `gpkg_geometry_columns`. */
export interface FeatureTable {
  readonly name: string;
  readonly geometryColumn: string;
  readonly srsId: number;
}

export interface TableColumn {
  readonly name: string;
  /** Declared type in upper case. */
  readonly type: string;
}

/** The feature tables of a GeoPackage (OGC 12-128r18 sections 1.1.3, 2.1), in the order of its contents; views and virtual tables are none. */
export function featureTables(db: Database): FeatureTable[] {
  const names = new Set(column(db, "SELECT name FROM sqlite_schema WHERE type = 'table' AND rootpage > 0", []));
  if (!names.has("gpkg_geometry_columns") || !names.has("gpkg_contents")) {
    throw unreadableFile(
      "not-geopackage",
      "The file is an SQLite database but no GeoPackage.",
      "Export the layer as GeoPackage or GeoJSON.",
    );
  }
  for (const table of ["gpkg_contents", "gpkg_geometry_columns", "gpkg_spatial_ref_sys"]) checkTable(db, table);
  const sql =
    "SELECT g.table_name, g.column_name, g.srs_id FROM gpkg_contents c JOIN gpkg_geometry_columns g ON g.table_name = c.table_name " +
    "WHERE c.data_type = 'features' ORDER BY c.rowid, g.rowid";
  const tables: FeatureTable[] = [];
  for (const [name, geometryColumn, srsId] of rows(db, sql, [])) {
    if (typeof name !== "string" || typeof geometryColumn !== "string" || !names.has(name)) continue;
    if (!tables.some((table) => table.name === name)) tables.push({ name, geometryColumn, srsId: Number(srsId) });
  }
  if (tables.length === 0) {
    throw unreadableFile(
      "no-features",
      "The GeoPackage has no table of features.",
      "Export the layer again; views are not read.",
    );
  }
  return tables;
}

/** The columns of a table, without generated ones. */
export const tableColumns = (db: Database, table: string): TableColumn[] =>
  rows(db, "SELECT name, type FROM pragma_table_info(?)", [table]).map(([name, type]) => ({
    name: String(name),
    type: String(type ?? "").toUpperCase(),
  }));

/**
 * Name or definition of a table's coordinate system, for a `crs` member: the EPSG code where it is known, else the definition. Null for
 * longitude and latitude on WGS 84, undefined where the table's system is undefined (-1, 0).
 */
export async function tableSystem(db: Database, srsId: number): Promise<string | null | undefined> {
  const sql = "SELECT organization, organization_coordsys_id, definition FROM gpkg_spatial_ref_sys WHERE srs_id = ?";
  const [row] = rows(db, sql, [srsId]);
  if (row === undefined || srsId === 0 || srsId === -1) return undefined;
  const [organization, code, definition] = row;
  const isEpsg = String(organization).toUpperCase() === "EPSG";
  if (isEpsg && Number(code) === 4326) return null;
  const name = `${String(organization).toUpperCase().slice(0, 20)}:${Number(code)}`;
  const isKnown = await coordinateSystem(name).then(
    () => true,
    () => false,
  );
  return isKnown || typeof definition !== "string" || definition.length < 20 ? name : definition;
}

/** Refuses a table whose pages are damaged, before anything in it is believed. */
export function checkTable(db: Database, table: string): void {
  const [verdict] = column(db, `PRAGMA quick_check(${sqlText(table)})`, []);
  if (verdict !== "ok") throw damaged("GeoPackage", `table ${table.slice(0, 60)}: ${String(verdict).slice(0, 120)}`);
}

const sqlText = (text: string): string => `'${text.replaceAll("'", "''")}'`;

type Bindings = readonly (string | number)[];

export function rows(db: Database, sql: string, bindings: Bindings): unknown[][] {
  return db.exec({ sql, bind: bindings as never, rowMode: "array", returnValue: "resultRows" }) as unknown[][];
}

const column = (db: Database, sql: string, bindings: Bindings): unknown[] =>
  rows(db, sql, bindings).map(([value]) => value);
