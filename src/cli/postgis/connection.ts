import type { Sql, TransactionSql } from "postgres";
import { CommandError, EXIT } from "../exit-codes.ts";
import type { DatabaseAddress } from "./postgis-address.ts";

/** Seconds until a server that does not answer is given up. Our policy. */
const CONNECT_SECONDS = 10;

type Mode = "read only" | "read write";
/** A reader sees one state of the database; a writer that waited for another must see what that one did. */
const BEGIN: Readonly<Record<Mode, string>> = {
  "read only": "isolation level repeatable read read only",
  "read write": "isolation level read committed read write",
};

/** Name of a database for people: without host, user and password. */
export const databaseName = (address: DatabaseAddress): string =>
  address.database ?? process.env.PGDATABASE ?? "database";

/**
 * What `work` gives, done in one transaction on the named database, and nowhere else; the connection is closed afterwards. Of what the address leaves
 * open PGHOST, PGPORT, PGUSER, PGPASSWORD and PGDATABASE decide. Throws CommandError with the server's own sentence, never with the address.
 */
export async function inTransaction<T>(
  address: DatabaseAddress,
  mode: Mode,
  work: (transaction: TransactionSql) => Promise<T>,
): Promise<T> {
  const sql = await connect(address);
  try {
    return (await sql.begin(BEGIN[mode], work)) as T;
  } catch (error) {
    throw error instanceof Error && isFromDatabase(error) ? asCommandError(error, address, mode) : error;
  } finally {
    await sql.end({ timeout: 1 });
  }
}

/**
 * One statement with bound values; `text` must hold names that went through `quoteIdentifier` only. Several statements in one text are refused by the
 * server, because the extended protocol has no room for them.
 */
export async function run(
  transaction: TransactionSql,
  text: string,
  values: readonly (string | number | null)[] = [],
): Promise<Record<string, unknown>[]> {
  return [...(await transaction.unsafe(text, [...values], EXTENDED))];
}

/** The driver takes a text without values for the simple protocol, which would run several statements. */
export const EXTENDED: { readonly prepare: false } = Object.freeze({ prepare: false, simple: false });

async function connect(address: DatabaseAddress): Promise<Sql> {
  const { default: postgres } = await import("postgres");
  const { host, port, user, password, database, sslMode } = address;
  return postgres({
    ...(host === null ? {} : { host }),
    ...(port === null ? {} : { port }),
    ...(user === null ? {} : { user }),
    ...(password === null ? {} : { password }),
    ...(database === null ? {} : { database }),
    ssl: sslMode === "disable" || host?.startsWith("/") === true ? false : sslMode,
    max: 1,
    fetch_types: false,
    connect_timeout: CONNECT_SECONDS,
    onnotice: () => {},
    connection: { application_name: "boughline" },
  });
}

/** Whether an error is the server's answer, or says that there is none; what `work` throws itself passes through. */
function isFromDatabase(error: Error): boolean {
  const { code, syscall } = error as { code?: unknown; syscall?: unknown };
  if (error.name === "PostgresError") return true;
  return typeof code === "string" && (/^CONNECT/.test(code) || syscall === "connect" || isLookup(syscall, code));
}

const isLookup = (syscall: unknown, code: string): boolean => syscall === "getaddrinfo" || code === "ECONNREFUSED";

function asCommandError(error: Error, address: DatabaseAddress, mode: Mode): CommandError {
  const { code, hint } = error as { code?: string; hint?: string };
  const what = error.name === "PostgresError" ? "answered" : "cannot be reached";
  const sentence = error.message === "" ? String(code) : error.message;
  const lines = [`The database ${databaseName(address)} ${what}: ${sentence}.`, ...(hint === undefined ? [] : [hint])];
  return new CommandError(mode === "read only" ? EXIT.inputRefused : EXIT.cannotWrite, lines.join("\n"));
}
