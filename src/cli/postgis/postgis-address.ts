import { usageError } from "../exit-codes.ts";

/** How to reach a database, from an address such as `postgres://user@host:5432/city`. What is null is libpq's business: PGHOST, PGUSER ... */
export interface DatabaseAddress {
  readonly host: string | null;
  readonly port: number | null;
  readonly user: string | null;
  readonly password: string | null;
  readonly database: string | null;
  readonly sslMode: SslMode;
}

/** What to read as a layer: a table or view, or the rows of a query. */
export interface LayerAddress {
  readonly database: DatabaseAddress;
  readonly source: { readonly schema: string | null; readonly table: string } | { readonly sql: string };
  /** Column with the geometry; null where the source has only one. */
  readonly geometry: string | null;
  /** What a geometry without a coordinate system is in, an EPSG code; null for longitude and latitude. */
  readonly srid: number | null;
}

/** Where a plan is written back to. */
export interface SchemaAddress {
  readonly database: DatabaseAddress;
  readonly schema: string;
}

const SSL_MODES = ["disable", "prefer", "require", "verify-full"] as const;
export type SslMode = (typeof SSL_MODES)[number];

/** Whether an argument is the address of a database and not a file. */
export const isDatabaseAddress = (text: string): boolean => /^postgres(ql)?:\/\//i.test(text.trim());

/** The address with a table to read, unless it names a table or a query itself. */
export function withTable(address: string, table: string): string {
  if (/[?&](table|sql)=/.test(address)) return address;
  return `${address}${address.includes("?") ? "&" : "?"}table=${encodeURIComponent(table)}`;
}

/**
 * The layer an address names: `postgres://user@host/db?table=schema.table`, or `...?sql=SELECT ...` with the query last; further members are `geometry`, `srid`,
 * `sslmode`, `host` (a socket's folder). As in every address `%` is written `%25`, and a name with a dot stands in double quotes. Throws CommandError, which
 * never repeats the address: it can hold a password.
 */
export function layerAddress(text: string): LayerAddress {
  const { address, sql } = withoutQuery(text.trim());
  const { database, members } = parseAddress(address, ["table", "geometry", "srid"]);
  const table = members.get("table");
  if ((table === undefined) === (sql === null))
    throw usageError("A database layer takes ?table=schema.table or ?sql=SELECT ...");
  return {
    database,
    source: sql === null ? tableOf(table!) : { sql },
    geometry: members.get("geometry") ?? null,
    srid: sridOf(members.get("srid")),
  };
}

/** The schema an address names: `postgres://user@host/db?schema=name`. Throws CommandError as {@link layerAddress} does. */
export function schemaAddress(text: string): SchemaAddress {
  const { database, members } = parseAddress(text.trim(), ["schema"]);
  const schema = members.get("schema");
  if (schema === undefined || schema === "") {
    throw usageError("A database to write to takes ?schema=name: the schema for the plan's tables.");
  }
  return { database, schema };
}

/** Everything behind `sql=` is the query, so that it needs no escapes but `%25`. */
function withoutQuery(text: string): { address: string; sql: string | null } {
  const at = text.search(/[?&]sql=/);
  if (at === -1) return { address: text, sql: null };
  const sql = decoded(text.slice(at + "?sql=".length)).trim();
  if (sql === "") throw usageError("The query behind sql= is empty.");
  return { address: text.slice(0, at), sql };
}

function parseAddress(
  text: string,
  allowed: readonly string[],
): { database: DatabaseAddress; members: ReadonlyMap<string, string> } {
  // Web addresses need a host behind a user; PostgreSQL's need none, where a socket is meant.
  const withHost = text.replace(/^(postgres(?:ql)?:\/\/[^/?#@]*@)(?=[/?]|$)/i, "$1nohost");
  let url: URL;
  try {
    url = new URL(withHost);
  } catch {
    throw usageError("The database's address cannot be read. It looks like postgres://user@host:5432/database?...");
  }
  const known = [...allowed, "host", "sslmode"];
  const members = new Map<string, string>();
  for (const part of url.search.slice(1).split("&")) {
    if (part === "") continue;
    const equals = part.indexOf("=");
    const name = decoded(equals === -1 ? part : part.slice(0, equals));
    if (!known.includes(name))
      throw usageError(`A database's address takes ${known.join(", ")}, got "${name.slice(0, 80)}".`);
    members.set(name, equals === -1 ? "" : decoded(part.slice(equals + 1)));
  }
  return { database: databaseOf(url, withHost === text, members), members };
}

function databaseOf(url: URL, hasHost: boolean, members: ReadonlyMap<string, string>): DatabaseAddress {
  const sslMode = members.get("sslmode") ?? "prefer";
  if (!SSL_MODES.includes(sslMode as SslMode))
    throw usageError(`sslmode takes ${SSL_MODES.join(", ")}, got "${sslMode.slice(0, 80)}".`);
  const orNull = (text: string): string | null => (text === "" ? null : decoded(text));
  return {
    host: members.get("host") ?? (hasHost ? orNull(url.hostname) : null),
    port: url.port === "" ? null : Number(url.port),
    user: orNull(url.username),
    password: orNull(url.password),
    database: orNull(url.pathname.replace(/^\//, "")),
    sslMode: sslMode as SslMode,
  };
}

function tableOf(text: string): { schema: string | null; table: string } {
  const names = text.match(/^(?:("(?:[^"]|"")+"|[^".]+)\.)?("(?:[^"]|"")+"|[^".]+)$/);
  if (names === null) throw usageError(`Expected table=schema.table, got "${text.slice(0, 80)}".`);
  return { schema: names[1] === undefined ? null : unquoted(names[1]), table: unquoted(names[2]!) };
}

const unquoted = (name: string): string => (name.startsWith('"') ? name.slice(1, -1).replaceAll('""', '"') : name);

function sridOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const srid = Number(text.replace(/^EPSG:/i, ""));
  if (!Number.isInteger(srid) || srid < 1)
    throw usageError(`srid takes an EPSG code such as 2263, got "${text.slice(0, 80)}".`);
  return srid;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    throw usageError("The database's address has a % that is no escape: write it %25.");
  }
}
