import { UnreadableError } from "../geojson/open-document.ts";
import { detectFormat } from "./detect-format.ts";
import { LIMITS } from "./limits.ts";

/**
 * Names of the tables a file holds where it can hold several, as `table` takes them: the feature tables of a GeoPackage, the shapefiles or else
 * the other layer files of a zip. Empty for files that are one layer by their format, and for those that cannot be opened: reading says why.
 */
export async function listTables(bytes: Uint8Array, name: string): Promise<readonly string[]> {
  try {
    const container = detectFormat(bytes, name);
    if (container === "sqlite") return await tablesOfGeoPackage(bytes);
    if (container !== "zip") return [];
    const [{ layersInZip }, { zipEntries }] = await Promise.all([
      import("./zip/open-zip.ts"),
      import("./zip/zip-entries.ts"),
    ]);
    return layersInZip(zipEntries(bytes, LIMITS)).names;
  } catch (error) {
    if (error instanceof UnreadableError) return [];
    throw error;
  }
}

async function tablesOfGeoPackage(bytes: Uint8Array): Promise<string[]> {
  const [{ openSqlite }, { featureTables }] = await Promise.all([
    import("./geopackage/open-sqlite.ts"),
    import("./geopackage/feature-tables.ts"),
  ]);
  const { db, sqlite } = await openSqlite(bytes);
  try {
    return featureTables(db).map(({ name }) => name);
  } catch (error) {
    if (error instanceof sqlite.SQLite3Error) return [];
    throw error;
  } finally {
    db.close();
  }
}
