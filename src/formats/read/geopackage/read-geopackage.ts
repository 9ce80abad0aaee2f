import type { PreparedStatement } from "@sqlite.org/sqlite-wasm";
import { withThousands } from "../../../core/units/with-thousands.ts";
import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { type Converted, doubt, measuresDropped, note, type ReaderInput } from "../converted.ts";
import { FeatureWriter } from "../feature-writer.ts";
import { pickTable } from "../pick-table.ts";
import { damaged, pastLimit } from "../unreadable-file.ts";
import {
  checkTable,
  type FeatureTable,
  featureTables,
  type TableColumn,
  tableColumns,
  tableSystem,
} from "./feature-tables.ts";
import { gpkgGeometry } from "./gpkg-geometry.ts";
import { type OpenSqlite, openSqlite, quoted } from "./open-sqlite.ts";

/**
 * A feature table of a GeoPackage as GeoJSON, the primary key among the properties, coordinates in the table's own system. Booleans
 * become true and false, blobs base64, whole numbers past 2^53 text. Throws UnreadableError for a damaged file, or when several tables
 * leave a choice nobody made.
 */
export async function readGeoPackage(input: ReaderInput): Promise<Converted> {
  const open = await openSqlite(input.bytes);
  try {
    return await readTable(open, input);
  } catch (error) {
    if (error instanceof open.sqlite.SQLite3Error) throw damaged("GeoPackage", String(error.message).slice(0, 160));
    throw error;
  } finally {
    open.db.close();
  }
}

async function readTable(
  { db, sqlite, findings: before }: OpenSqlite,
  { options, limits, time }: ReaderInput,
): Promise<Converted> {
  const tables = featureTables(db);
  const picked = pickTable(
    tables.map(({ name }) => name),
    options,
    "GeoPackage",
  );
  const table = tables[picked.index]!;
  checkTable(db, table.name);
  const system = await tableSystem(db, table.srsId);
  const columns = tableColumns(db, table.name);
  const properties = columns.filter(({ name }) => name.toLowerCase() !== table.geometryColumn.toLowerCase());
  if (columns.length > limits.columns)
    throw pastLimit(`${columns.length} columns`, limits.columns, "Leave columns out.");
  const writer = new FeatureWriter(
    properties.map(({ name }) => name),
    system ?? null,
    limits,
  );
  const statement = db.prepare(selectText(table, properties));
  try {
    while (statement.step()) {
      time.step();
      const values = properties.map((column, index) => columnValue(sqlite, statement, index, column));
      writer.add(values, gpkgGeometry(statement.get(properties.length)));
    }
  } finally {
    statement.finalize();
  }
  const counts = `${withThousands(writer.rows)} rows, ${withThousands(properties.length)} columns`;
  const read = note("format-read", `Read as GeoPackage, table ${table.name.slice(0, 80)}: ${counts}.`);
  const findings: FeatureFault[] = [...before, read, ...picked.findings];
  if (system === undefined) {
    findings.push(
      doubt(
        "no-crs",
        "The table's coordinate system is undefined; the coordinates were taken for longitude and latitude.",
        "Give --crs EPSG:n.",
      ),
    );
  }
  if (writer.droppedMeasures) findings.push(measuresDropped());
  return { format: "GeoPackage", bytes: writer.end(), findings, rowFaults: writer.rowFaults };
}

const selectText = ({ name, geometryColumn }: FeatureTable, properties: readonly TableColumn[]): string =>
  `SELECT ${[...properties.map((column) => quoted(column.name)), quoted(geometryColumn)].join(", ")} FROM ${quoted(name)}`;

function columnValue(
  sqlite: OpenSqlite["sqlite"],
  statement: PreparedStatement,
  index: number,
  { type }: TableColumn,
): unknown {
  const value = statement.get(index);
  if (type === "BOOLEAN" && (value === 0 || value === 1)) return value === 1;
  if (typeof value !== "string") return value;
  // The library ends a text at its first zero byte; the bytes of the text hold the rest.
  const length = sqlite.capi.sqlite3_column_bytes(statement.pointer as never, index);
  if (length === value.length || new TextEncoder().encode(value).length === length) return value;
  return new TextDecoder().decode(statement.getBlob(index) as Uint8Array);
}
