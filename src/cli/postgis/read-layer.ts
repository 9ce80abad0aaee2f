import type { TransactionSql } from "postgres";
import { joinBytes } from "../../formats/join-bytes.ts";
import { inputError } from "../exit-codes.ts";
import { MAX_INPUT_BYTES } from "../read-input.ts";
import { databaseName, EXTENDED, inTransaction, run } from "./connection.ts";
import type { LayerAddress } from "./postgis-address.ts";
import { postgisSchema } from "./postgis-functions.ts";
import { qualified, quoteIdentifier } from "./quote-identifier.ts";

/** A table or query as the GeoJSON file it would be. */
export interface DatabaseLayer {
  /** Shown to people: database and table, without host, user and password. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Rows fetched at a time. */
const BATCH_ROWS = 2000;

/**
 * Reads a layer from PostGIS as a GeoJSON FeatureCollection in longitude and latitude, in one read-only transaction.
 *
 * The server writes both halves of a feature: properties by `row_to_json`, so that every column but the geometry comes through with its name, order and the
 * digits of its numbers, dates as ISO 8601, arrays and composites nested; geometry by `ST_AsGeoJSON` with 15 decimals, after `ST_Transform` to 4326 where it is in
 * another system: the server has its grids and the city's own definitions. Arcs become lines; M values are left out. A geometry without a system is in `srid`,
 * else it is taken for longitude and latitude. Rows of a table come in the order of its primary key, others as the server gives them.
 *
 * Throws CommandError with the server's sentence, for a source without geometry or with several, and for columns of the same name.
 */
export async function readPostgisLayer(address: LayerAddress): Promise<DatabaseLayer> {
  return await inTransaction(address.database, "read only", async (transaction) => {
    const postgis = await postgisSchema(transaction);
    const from = sourceText(address);
    const columns = await columnsOf(transaction, from);
    const geometry = geometryColumn(columns, address.geometry);
    const others = columns.map(({ name }) => name).filter((name) => name !== geometry.name);
    const order = await orderOf(transaction, address, others);
    const list = others.map((name) => `source.${quoteIdentifier(name)}`).join(", ");
    const statement =
      `SELECT row_to_json(properties)::text AS properties, ${geometryText(postgis, geometry, address.srid)} AS geometry ` +
      `FROM ${from} AS source CROSS JOIN LATERAL (SELECT ${list}) AS properties${order}`;
    const name = `${databaseName(address.database)}/${"sql" in address.source ? "query" : tableName(address.source)}`;
    return { name, bytes: await collect(transaction, statement, name) };
  });
}

const tableName = ({ schema, table }: { schema: string | null; table: string }): string =>
  schema === null ? table : `${schema}.${table}`;

/** The line break ends a comment at the end of a query. */
const sourceText = ({ source }: LayerAddress): string =>
  "sql" in source ? `(${source.sql}\n)` : qualified(source.schema, source.table);

interface Column {
  readonly name: string;
  readonly type: string;
}

async function columnsOf(transaction: TransactionSql, from: string): Promise<Column[]> {
  const described = await transaction.unsafe(`SELECT * FROM ${from} AS source LIMIT 0`, [], EXTENDED);
  const columns = described.columns as readonly { readonly name: string; readonly type: number }[];
  const twice = columns.find(({ name }, at) => columns.findIndex((one) => one.name === name) !== at);
  if (twice !== undefined) {
    throw inputError(
      `The query has two columns named ${twice.name.slice(0, 80)}. Give one of them another name with AS.`,
    );
  }
  const types = await run(
    transaction,
    "SELECT oid::int8::text AS oid, typname AS type FROM pg_type WHERE typname IN ('geometry', 'geography')",
  );
  const typeOf = new Map(types.map((row) => [Number(row.oid), String(row.type)]));
  return columns.map(({ name, type }) => ({ name, type: typeOf.get(type) ?? "other" }));
}

function geometryColumn(columns: readonly Column[], asked: string | null): Column {
  const found = columns.filter(({ type }) => type !== "other");
  if (asked !== null) {
    const one = found.find(({ name }) => name === asked);
    if (one === undefined) throw inputError(`There is no geometry column named ${asked.slice(0, 80)}.`);
    return one;
  }
  if (found.length === 1) return found[0]!;
  throw inputError(
    found.length === 0
      ? "The table or query has no geometry column."
      : `There are several geometry columns: ${found.map(({ name }) => name).join(", ")}. Say which with &geometry=NAME.`,
  );
}

function geometryText(postgis: string, { name, type }: Column, srid: number | null): string {
  const column = `source.${quoteIdentifier(name)}${type === "geography" ? `::${postgis}.geometry` : ""}`;
  const straight = `(CASE WHEN ${postgis}.ST_HasArc(${column}) THEN ${postgis}.ST_CurveToLine(${column}) ELSE ${column} END)`;
  const known =
    srid === null
      ? straight
      : `(CASE WHEN ${postgis}.ST_SRID(${column}) = 0 THEN ${postgis}.ST_SetSRID(${straight}, ${srid}) ELSE ${straight} END)`;
  const inDegrees = `(CASE WHEN ${postgis}.ST_SRID(${known}) IN (0, 4326) THEN ${known} ELSE ${postgis}.ST_Transform(${known}, 4326) END)`;
  return `${postgis}.ST_AsGeoJSON(${inDegrees}, 15, 0)`;
}

/** Order by the primary key, so that the same table gives the same plan; none for a view, a query or a table without key. */
async function orderOf(
  transaction: TransactionSql,
  { source }: LayerAddress,
  columns: readonly string[],
): Promise<string> {
  if ("sql" in source) return "";
  const rows = await run(
    transaction,
    "SELECT a.attname AS name FROM pg_index i JOIN unnest(i.indkey) WITH ORDINALITY AS k(number, place) ON true " +
      "JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = k.number WHERE i.indisprimary AND i.indrelid = $1::text::regclass ORDER BY k.place",
    [qualified(source.schema, source.table)],
  );
  const keys = rows.map(({ name }) => String(name)).filter((name) => columns.includes(name));
  return keys.length === 0 ? "" : ` ORDER BY ${keys.map((key) => `source.${quoteIdentifier(key)}`).join(", ")}`;
}

async function collect(transaction: TransactionSql, statement: string, name: string): Promise<Uint8Array> {
  const encoder = new TextEncoder();
  const pieces = [encoder.encode('{"type":"FeatureCollection","features":[\n')];
  let length = pieces[0]!.length;
  let isFirst = true;
  for await (const rows of transaction.unsafe(statement, [], EXTENDED).cursor(BATCH_ROWS)) {
    const features = rows.map(
      (row) => `{"type":"Feature","properties":${row.properties},"geometry":${row.geometry ?? "null"}}`,
    );
    if (features.length === 0) continue;
    const piece = encoder.encode(`${isFirst ? "" : ",\n"}${features.join(",\n")}`);
    isFirst = false;
    length += piece.length;
    if (length > MAX_INPUT_BYTES) {
      throw inputError(
        `${name} has more than ${MAX_INPUT_BYTES} bytes. Read it in parts with sql=SELECT ... WHERE ...`,
      );
    }
    pieces.push(piece);
  }
  pieces.push(encoder.encode("\n]}\n"));
  return joinBytes(pieces);
}
