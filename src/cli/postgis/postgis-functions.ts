import type { TransactionSql } from "postgres";
import { inputError } from "../exit-codes.ts";
import { run } from "./connection.ts";
import { quoteIdentifier } from "./quote-identifier.ts";

/** Schema of a database's PostGIS, quoted: it need not be on the search path. Throws CommandError where PostGIS is missing. */
export async function postgisSchema(transaction: TransactionSql): Promise<string> {
  const [row] = await run(
    transaction,
    "SELECT n.nspname AS name FROM pg_extension e JOIN pg_namespace n ON n.oid = e.extnamespace WHERE e.extname = 'postgis'",
  );
  if (row === undefined) {
    throw inputError("The database has no PostGIS. Its owner can add it: CREATE EXTENSION postgis.");
  }
  return quoteIdentifier(String(row.name));
}
