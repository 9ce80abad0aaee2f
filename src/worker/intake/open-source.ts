import { firstLook, guessLayer } from "../../formats/check/guess-layer.ts";
import { lookAtFile } from "../../formats/check/look-at-file.ts";
import { UnreadableError } from "../../formats/geojson/open-document.ts";
import { listTables } from "../../formats/read/list-tables.ts";
import { toGeoJson } from "../../formats/read/to-geojson.ts";
import type { TableGuess } from "./intake-messages.ts";

/** Most tables of one file that are offered. */
const MOST_TABLES = 40;

/**
 * The tables of a file, each with the layer it is taken for; one entry with a null table for a file that is one layer. A table's own name
 * tells first, then what it holds; the file's name tells only where it is one layer. A file that cannot be read is one entry: reading says why.
 */
export async function openSource(bytes: Uint8Array, name: string): Promise<TableGuess[]> {
  const tables = (await listTables(bytes, name)).slice(0, MOST_TABLES);
  if (tables.length < 2) return [{ table: null, ...(await guessOf(bytes, name, null, name)) }];
  const guesses: TableGuess[] = [];
  for (const table of tables) guesses.push({ table, ...(await guessOf(bytes, name, table, table)) });
  return guesses;
}

async function guessOf(bytes: Uint8Array, name: string, table: string | null, named: string) {
  try {
    const converted = await toGeoJson(bytes, name, { table });
    return guessLayer(named, lookAtFile(converted.bytes));
  } catch (error) {
    if (error instanceof UnreadableError) return guessLayer(named, firstLook(""));
    throw error;
  }
}
