import sqlite3InitModule, { type Database, type Sqlite3Static } from "@sqlite.org/sqlite-wasm";
import type { FeatureFault } from "../../geojson/feature-fault.ts";
import { note } from "../converted.ts";
import { damaged, unreadableFile } from "../unreadable-file.ts";

/** A database file opened for reading, with the library that opened it. */
export interface OpenSqlite {
  readonly db: Database;
  readonly sqlite: Sqlite3Static;
  readonly findings: readonly FeatureFault[];
}

/** Longest text, blob or statement, in bytes; SQLite's own default is 1,000,000,000. */
const MAX_VALUE_BYTES = 200_000_000;
/** Bytes 18 and 19 of the header: 2 is the write-ahead journal (SQLite file format, section 1.3). */
const WAL = 2;

let loading: Promise<Sqlite3Static> | null = null;

/**
 * A database file opened in memory, read-only, as SQLite's security page advises for files from strangers: no trust in its schema, no
 * triggers or views, defensive mode, cell sizes checked, lengths limited. Close `db` after use. Throws UnreadableError when it is no database.
 */
export async function openSqlite(bytes: Uint8Array): Promise<OpenSqlite> {
  loading ??= startSqlite();
  const sqlite = await loading;
  const { capi, wasm } = sqlite;
  const isWal = bytes[18] === WAL || bytes[19] === WAL;
  let pointer: number;
  try {
    pointer = wasm.alloc(bytes.length);
    wasm.heap8u().set(bytes, pointer);
  } catch {
    throw unreadableFile(
      "too-large",
      `The GeoPackage has ${bytes.length} bytes, more than fit into memory here.`,
      "Export the one layer, as GeoPackage or FlatGeobuf.",
    );
  }
  const db = new sqlite.oo1.DB(":memory:");
  // A database in memory has no journal beside it.
  if (isWal) wasm.heap8u().fill(1, pointer + 18, pointer + 20);
  const flags = capi.SQLITE_DESERIALIZE_FREEONCLOSE | capi.SQLITE_DESERIALIZE_READONLY;
  const code = capi.sqlite3_deserialize(db.pointer!, "main", pointer, bytes.length, bytes.length, flags);
  if (code !== 0) {
    db.close();
    throw damaged("GeoPackage", "it cannot be opened");
  }
  for (const option of [capi.SQLITE_DBCONFIG_DEFENSIVE]) capi.sqlite3_db_config(db.pointer!, option, 1, 0);
  for (const option of [
    capi.SQLITE_DBCONFIG_TRUSTED_SCHEMA,
    capi.SQLITE_DBCONFIG_ENABLE_TRIGGER,
    capi.SQLITE_DBCONFIG_ENABLE_VIEW,
  ]) {
    capi.sqlite3_db_config(db.pointer!, option, 0, 0);
  }
  capi.sqlite3_limit(db.pointer!, capi.SQLITE_LIMIT_LENGTH, MAX_VALUE_BYTES);
  capi.sqlite3_limit(db.pointer!, capi.SQLITE_LIMIT_ATTACHED, 0);
  try {
    db.exec("PRAGMA trusted_schema=OFF; PRAGMA cell_size_check=ON; PRAGMA mmap_size=0;");
  } catch {
    db.close();
    throw damaged("GeoPackage", "it cannot be opened");
  }
  const reason = "The GeoPackage was in use when it was copied; changes still in its -wal file are not in it.";
  return {
    db,
    sqlite,
    findings: isWal
      ? [note("journal-not-read", reason, "Close the program that writes it, and copy it again if rows are missing.")]
      : [],
  };
}

/** Starts the library quietly: a damaged file is a finding, and the file system it misses in a browser is not used. */
function startSqlite(): Promise<Sqlite3Static> {
  (globalThis as { sqlite3ApiConfig?: object }).sqlite3ApiConfig = { warn: () => {} };
  return sqlite3InitModule();
}

/** An identifier in SQL, with quotes inside doubled. */
export const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;
