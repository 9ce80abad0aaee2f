import { parseColumnMap } from "../core/inventory/column-map-schema.ts";
import type { ColumnMap } from "../core/model/column-map.ts";
import type { PlanOptions } from "../core/model/plan.ts";
import { LAYERS, type Layer } from "../core/model/terms.ts";
import { type IsoDate, parseIsoDate } from "../core/units/calendar.ts";
import { parseLayerArgument } from "../formats/filter.ts";
import { inputError, usageError } from "./exit-codes.ts";
import { parsePlace } from "./parse-place.ts";
import { isDatabaseAddress, layerAddress, withTable } from "./postgis/postgis-address.ts";
import { readJson } from "./read-input.ts";

/** Gathers the values of an option that may be repeated. */
export const collect = (value: string, earlier: string[] | undefined): string[] => [...(earlier ?? []), value];

/**
 * A file argument `PATH` or `PATH where CONDITION`, the condition as text, known to be readable; or the address of a database, whose query has
 * a WHERE of its own. `table` is the table of a database that names none itself. Throws CommandError for another.
 */
export function layerArgument(
  text: string,
  table: string | null = null,
): { readonly path: string; readonly filter: string | null } {
  if (isDatabaseAddress(text)) {
    const path = table === null ? text : withTable(text, table);
    layerAddress(path);
    return { path, filter: null };
  }
  try {
    const { path, filter } = parseLayerArgument(text);
    return { path, filter: filter?.text ?? null };
  } catch (error) {
    throw usageError(`"${text}": ${(error as Error).message}`);
  }
}

/** What `--table` says to people. */
export const TABLE_HELP = "for a file with several tables or shapefiles, the one to read: --table trees=street_trees";

/** The same for `check`, which also guesses layers. */
export const CHECK_TABLE_HELP =
  "the table to read of a file or database with several: NAME where the layer is guessed, else trees=NAME; may be repeated";

/** Tables to read by layer, from texts `LAYER=NAME`; the last one of a layer counts. Throws CommandError for another text. */
export function layerTables(texts: readonly string[] | undefined): ReadonlyMap<Layer, string> {
  const tables = new Map<Layer, string>();
  for (const text of texts ?? []) {
    const at = text.indexOf("=");
    const layer = LAYERS.find((one) => one === text.slice(0, Math.max(0, at)));
    if (layer === undefined || at === text.length - 1) {
      throw usageError(`--table takes LAYER=NAME, with one of ${LAYERS.join(", ")}; got "${text.slice(0, 80)}".`);
    }
    tables.set(layer, text.slice(at + 1));
  }
  return tables;
}

/** The tables of `--table` that are for a layer, and those without one, for files whose layer is guessed. Throws CommandError for an empty name. */
export function tablesAsked(texts: readonly string[] | undefined): {
  readonly byLayer: ReadonlyMap<Layer, string>;
  readonly bare: readonly string[];
} {
  const isBare = (text: string): boolean => !LAYERS.some((layer) => text.startsWith(`${layer}=`));
  const bare = (texts ?? []).filter(isBare);
  if (bare.includes("")) throw usageError("--table takes NAME or LAYER=NAME, got nothing.");
  return { byLayer: layerTables((texts ?? []).filter((text) => !isBare(text))), bare };
}

/** Options of a run that change its result, as typed. Throws CommandError for a wrong one. */
export function planOptionsOf(options: {
  readonly asOf?: string;
  readonly units?: string;
  readonly drive?: string;
  readonly place?: string;
}): PlanOptions {
  const asOf = options.asOf === undefined ? today() : parseIsoDate(options.asOf);
  if (asOf === null) throw usageError(`--as-of takes a date YYYY-MM-DD, got "${options.asOf}".`);
  return {
    asOf,
    units: oneOf("--units", options.units, ["us", "metric"] as const) ?? "us",
    drive: oneOf("--drive", options.drive, ["right", "left"] as const) ?? "right",
    place: parsePlace(options.place ?? ""),
  };
}

/** The column map in a file. Throws CommandError with its faults. */
export async function readColumns(path: string): Promise<ColumnMap> {
  const parsed = parseColumnMap(await readJson(path));
  if ("faults" in parsed) throw inputError([`${path} is not a column map.`, ...parsed.faults].join("\n"));
  return parsed.columns;
}

/** The value of an option that takes one of a few words; null when it is left out. Throws CommandError for another word. */
export function oneOf<T extends string>(name: string, value: string | undefined, allowed: readonly T[]): T | null {
  if (value === undefined) return null;
  if (!allowed.includes(value as T)) throw usageError(`${name} takes ${allowed.join(" or ")}, got "${value}".`);
  return value as T;
}

/** Today's date where this machine is: the only clock in the project, and only when no date was given. */
function today(): IsoDate {
  const now = new Date();
  const text = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0"));
  return text.join("-") as IsoDate;
}
