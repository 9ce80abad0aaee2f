import type { TransactionSql } from "postgres";
import { columnNames } from "../../formats/write/column-names.ts";
import { hasZ } from "../../formats/write/geometry-box.ts";
import type { CellValue, ColumnType, LayerTable } from "../../formats/write/layer-table.ts";
import { wkb } from "../../formats/write/wkb.ts";
import { CommandError, EXIT } from "../exit-codes.ts";
import { databaseName, inTransaction, run } from "./connection.ts";
import type { SchemaAddress } from "./postgis-address.ts";
import { postgisSchema } from "./postgis-functions.ts";
import { qualified, quoteIdentifier, quoteLiteral } from "./quote-identifier.ts";

/** How the comment of every table that this program writes begins; a table without it is never replaced. */
export const TABLE_MARK = "Boughline plan";
/** Longest identifier of PostgreSQL as it is shipped, in bytes. */
const MAX_NAME_BYTES = 63;
/** Rows sent at a time. */
const BATCH_ROWS = 500;

/**
 * Writes a plan's tables into a schema of a database, all or nothing: fresh tables with primary key `fid`, geometry `geom` in 4326 and its spatial index, filled,
 * then put in the place of the earlier ones with their privileges, in one transaction. `beforeCommit` is awaited inside it: where that throws, the database
 * stays as it was.
 *
 * A table that was not written by this program is never replaced, and neither is one that a view rests on. Texts are bound as values; characters PostgreSQL
 * cannot hold (U+0000, halves of surrogate pairs) become U+FFFD. Throws CommandError.
 */
export async function writePostgisTables(
  address: SchemaAddress,
  tables: readonly LayerTable[],
  mark: string,
  beforeCommit: () => Promise<void>,
): Promise<void> {
  await inTransaction(address.database, "read write", async (transaction) => {
    const postgis = await postgisSchema(transaction);
    await run(transaction, "SELECT pg_advisory_xact_lock(hashtextextended($1, 0))", [
      `${TABLE_MARK} ${address.schema}`,
    ]);
    await ensureSchema(transaction, address.schema);
    for (const table of tables) await replaceTable(transaction, postgis, address, table, mark);
    await beforeCommit();
  });
}

async function ensureSchema(transaction: TransactionSql, schema: string): Promise<void> {
  const found = await run(transaction, "SELECT 1 FROM pg_namespace WHERE nspname = $1", [schema]);
  if (found.length === 0) await run(transaction, `CREATE SCHEMA ${quoteIdentifier(schema)}`);
}

async function replaceTable(
  transaction: TransactionSql,
  postgis: string,
  { database, schema }: SchemaAddress,
  table: LayerTable,
  mark: string,
): Promise<void> {
  const { name } = table;
  const target = qualified(schema, name);
  const [present] = await run(
    transaction,
    "SELECT c.relkind::text AS kind, obj_description(c.oid, 'pg_class') AS comment FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace " +
      "WHERE n.nspname = $1 AND c.relname = $2",
    [schema, name],
  );
  if (present !== undefined && !(present.kind === "r" && String(present.comment ?? "").startsWith(TABLE_MARK))) {
    throw new CommandError(
      EXIT.cannotWrite,
      `${databaseName(database)} has a table or view ${schema}.${name} that this program did not write; nothing was changed. Choose another schema.`,
    );
  }
  const fresh = `boughline_new_${name}`;
  await createTable(transaction, postgis, schema, fresh, table, mark);
  if (present !== undefined) {
    await copyPrivileges(transaction, target, qualified(schema, fresh));
    await run(transaction, `DROP TABLE ${target}`);
  }
  await run(transaction, `ALTER TABLE ${qualified(schema, fresh)} RENAME TO ${quoteIdentifier(name)}`);
  const indexes = ["pkey", ...(table.geometryType === null ? [] : ["geom_idx"])];
  for (const index of indexes) {
    const from = qualified(schema, `${fresh}_${index}`);
    await run(transaction, `ALTER INDEX ${from} RENAME TO ${quoteIdentifier(`${name}_${index}`)}`);
  }
  await run(transaction, `ANALYZE ${target}`);
}

const SQL_TYPES: Readonly<Record<ColumnType, string>> = {
  text: "text",
  integer: "bigint",
  real: "double precision",
  boolean: "boolean",
  date: "date",
};

async function createTable(
  transaction: TransactionSql,
  postgis: string,
  schema: string,
  fresh: string,
  table: LayerTable,
  mark: string,
): Promise<void> {
  const { columns, geometryType } = table;
  const target = qualified(schema, fresh);
  const names = columnNames(
    columns.map(({ name }) => name),
    [],
    MAX_NAME_BYTES,
  );
  const definitions = [
    `"fid" bigint CONSTRAINT ${quoteIdentifier(`${fresh}_pkey`)} PRIMARY KEY`,
    ...columns.map(({ type }, at) => `${quoteIdentifier(names[at]!)} ${SQL_TYPES[type]}`),
    ...(geometryType === null ? [] : [`"geom" ${postgis}.${geometryDefinition(table)}`]),
  ];
  await run(transaction, `CREATE TABLE ${target} (${definitions.join(", ")})`);
  await insertRows(transaction, postgis, target, names, table);
  if (geometryType !== null) {
    await run(transaction, `CREATE INDEX ${quoteIdentifier(`${fresh}_geom_idx`)} ON ${target} USING gist ("geom")`);
  }
  await run(transaction, `COMMENT ON TABLE ${target} IS ${quoteLiteral(`${TABLE_MARK} ${mark}. ${table.meaning}.`)}`);
  for (const [at, { meaning }] of columns.entries()) {
    if (meaning === null) continue;
    await run(transaction, `COMMENT ON COLUMN ${target}.${quoteIdentifier(names[at]!)} IS ${quoteLiteral(meaning)}`);
  }
}

/** A type fixes the number of dimensions, so a table with heights in some rows only takes any geometry. */
function geometryDefinition({ geometryType, geometries }: LayerTable): string {
  const present = geometries.filter((geometry) => geometry !== null);
  const withZ = present.filter(hasZ).length;
  if (withZ !== 0 && withZ !== present.length) return "geometry";
  return `geometry(${geometryType}${withZ === 0 ? "" : "Z"}, 4326)`;
}

/** Rows travel as one JSON text a batch, so that every value is bound and a batch has one parameter however wide the table is. */
async function insertRows(
  transaction: TransactionSql,
  postgis: string,
  target: string,
  names: readonly string[],
  { columns, geometryType, geometries, rowCount }: LayerTable,
): Promise<void> {
  const withGeometry = geometryType !== null;
  const record = [
    "fid bigint",
    ...columns.map(({ type }, at) => `c${at} ${SQL_TYPES[type]}`),
    ...(withGeometry ? ["g text"] : []),
  ];
  const into = ['"fid"', ...names.map(quoteIdentifier), ...(withGeometry ? ['"geom"'] : [])];
  const shape = `${postgis}.ST_SetSRID(${postgis}.ST_GeomFromWKB(decode(g, 'hex')), 4326)`;
  const from = ["fid", ...columns.map((_, at) => `c${at}`), ...(withGeometry ? [shape] : [])];
  const statement =
    `INSERT INTO ${target} (${into.join(", ")}) SELECT ${from.join(", ")} ` +
    `FROM json_to_recordset($1::text::json) AS batch(${record.join(", ")})`;
  for (let start = 0; start < rowCount; start += BATCH_ROWS) {
    const rows: Record<string, CellValue>[] = [];
    for (let row = start; row < Math.min(start + BATCH_ROWS, rowCount); row += 1) {
      const cells: Record<string, CellValue> = { fid: row + 1 };
      columns.forEach(({ values }, at) => {
        cells[`c${at}`] = storable(values[row] ?? null);
      });
      const geometry = geometries[row] ?? null;
      if (geometry !== null) cells.g = hexadecimal(wkb(geometry));
      rows.push(cells);
    }
    await run(transaction, statement, [JSON.stringify(rows)]);
  }
}

const storable = (value: CellValue): CellValue =>
  typeof value === "string" ? value.replaceAll("\u0000", "\ufffd").replace(/\p{Surrogate}/gu, "\ufffd") : value;

const hexadecimal = (bytes: Uint8Array): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString("hex");

/** Gives a fresh table the privileges of the one it takes the place of, so that who could read the plan still can. */
async function copyPrivileges(transaction: TransactionSql, from: string, to: string): Promise<void> {
  const rows = await run(
    transaction,
    "SELECT CASE WHEN p.grantee = 0 THEN 'PUBLIC' ELSE quote_ident(r.rolname) END AS grantee, p.privilege_type AS privilege, p.is_grantable AS grantable " +
      "FROM pg_class c CROSS JOIN LATERAL aclexplode(c.relacl) AS p LEFT JOIN pg_roles r ON r.oid = p.grantee " +
      "WHERE c.oid = $1::text::regclass AND p.grantee <> c.relowner AND (p.grantee = 0 OR r.rolname IS NOT NULL)",
    [from],
  );
  for (const { grantee, privilege, grantable } of rows) {
    await run(
      transaction,
      `GRANT ${privilege} ON TABLE ${to} TO ${grantee}${grantable === true ? " WITH GRANT OPTION" : ""}`,
    );
  }
}
