import type { Command } from "commander";
import { FIELDS } from "../core/model/column-map.ts";
import type { Finding } from "../core/model/finding.ts";
import type { PlanManifest } from "../core/plan/plan-manifest.ts";
import { joinBytes } from "../formats/join-bytes.ts";
import { memoryFile } from "../formats/tiles/byte-file.ts";
import { ALSO_FORMATS, type AlsoFormat, alsoFiles } from "../formats/write/also-files.ts";
import { publicFiles } from "../formats/write/public-files.ts";
import type { TreeField } from "../formats/write/public-trees.ts";
import { fileBytes, fileText, type RevisionFiles } from "../formats/write/revision-files.ts";
import { revisionTables, type TableColumns } from "../formats/write/revision-tables.ts";
import { planTiles } from "../map/tiles/plan-tiles.ts";
import { TILES_FILE } from "../map/tiles/tile-layers.ts";
import { usageError } from "./exit-codes.ts";
import { isDatabaseAddress, type SchemaAddress, schemaAddress } from "./postgis/postgis-address.ts";

/** Options of `enrich` and `zone` that write a plan in more ways, as typed. */
export interface ExportOptions {
  readonly also?: string[];
  readonly public?: boolean;
  readonly publicFields?: string;
  readonly allColumns?: boolean;
  readonly tiles?: boolean;
}

/** The same, understood. */
export interface ExportRequest {
  readonly formats: readonly AlsoFormat[];
  readonly databases: readonly SchemaAddress[];
  /** Private fields to publish all the same; null where nothing is published. */
  readonly publicFields: readonly TreeField[] | null;
  /** Which of the city's columns the tables of `--also` hold. */
  readonly columns: TableColumns;
  /** Whether map tiles are written too. */
  readonly withTiles: boolean;
}

const collect = (value: string, earlier: string[] | undefined): string[] => [...(earlier ?? []), value];

/** Adds `--also`, `--public`, `--public-fields`, `--tiles` and `--all-columns` to a command that writes a revision. */
export function addExportOptions(command: Command): Command {
  return command
    .option(
      "--also <formats>",
      `write as well: ${ALSO_FORMATS.join(",")} or postgres://user@host/db?schema=NAME; may be repeated`,
      collect,
    )
    .option(
      "--public",
      "write public/trees.geojson without unmapped columns, owner and address, and in the --also formats",
    )
    .option("--public-fields <fields>", "publish these fields too, for example owner,address")
    .option("--tiles", "write plan.pmtiles, map tiles of the plan, for maps of very many trees")
    .option("--all-columns", "let --also write the city's columns that feed no field too: they may name people");
}

/** What the options ask for. Throws CommandError before anything is computed. */
export function exportRequest(options: ExportOptions): ExportRequest {
  const asked = (options.also ?? []).flatMap(alsoParts);
  const formats = ALSO_FORMATS.filter((format) => asked.includes(format));
  const databases = asked.filter(isDatabaseAddress).map(schemaAddress);
  const unknown = asked.find((part) => !isDatabaseAddress(part) && !formats.includes(part as AlsoFormat));
  if (unknown !== undefined) {
    throw usageError(`--also takes ${ALSO_FORMATS.join(", ")} or postgres://..., got "${unknown.slice(0, 80)}".`);
  }
  if (options.publicFields !== undefined && options.public !== true)
    throw usageError("--public-fields needs --public.");
  return {
    formats,
    databases,
    publicFields: options.public === true ? publicFields(options.publicFields ?? "") : null,
    columns: options.allColumns === true ? "all" : "mapped",
    withTiles: options.tiles === true,
  };
}

/** Formats between commas; an address takes the rest of its argument, commas included. */
function alsoParts(text: string): string[] {
  const address = text.search(/(^|,)\s*postgres(ql)?:\/\//i);
  const formats = address === -1 ? text : text.slice(0, address);
  const rest = address === -1 ? [] : [text.slice(address).replace(/^,/, "").trim()];
  return [...formats.split(",").map((part) => part.trim().toLowerCase()), ...rest].filter((part) => part !== "");
}

/** The tree fields named between commas. Throws CommandError for others. */
export function publicFields(text: string): TreeField[] {
  const fields: readonly string[] = FIELDS.trees;
  return text.split(",").flatMap((part) => {
    const field = part.trim();
    if (field === "") return [];
    if (!fields.includes(field))
      throw usageError(`--public-fields takes tree fields such as owner, got "${field.slice(0, 80)}".`);
    return [field as TreeField];
  });
}

/** Whether a revision is written as it is, so that nothing reads its files again. */
export const addsNothing = ({ formats, databases, publicFields, withTiles }: ExportRequest): boolean =>
  formats.length === 0 && databases.length === 0 && publicFields === null && !withTiles;

/** A revision with what the request adds to its folder, and the findings that are new. */
export async function exportRevision(
  files: RevisionFiles,
  request: ExportRequest,
): Promise<{ files: RevisionFiles; findings: readonly Finding[] }> {
  const tiled = request.withTiles ? new Map([...files, [TILES_FILE, tilesOf(files)]]) : files;
  const extended = await alsoFiles(tiled, request.formats, request.columns);
  if (request.publicFields === null) return extended;
  return { ...extended, files: await publicFiles(extended.files, request.publicFields, request.formats) };
}

const tilesOf = (files: RevisionFiles): Uint8Array =>
  joinBytes(planTiles((name) => memoryFile(fileBytes(files, name))));

/**
 * Commits a revision to its folder and to the databases asked for. Every database is written whole before the folder is, and each is committed after it: where
 * anything fails until then, neither the folder nor a database has changed.
 */
export async function commitEverywhere(
  files: RevisionFiles,
  request: ExportRequest,
  commitFolder: () => Promise<void>,
): Promise<void> {
  if (request.databases.length === 0) {
    await commitFolder();
    return;
  }
  const { writePostgisTables } = await import("./postgis/write-tables.ts");
  const { tables } = revisionTables(files, request.columns);
  const { plan, revision, as_of } = JSON.parse(fileText(files, "plan.json")) as PlanManifest;
  const mark = `${plan}, revision ${revision}, as of ${as_of}`;
  const commitNext = (at: number): Promise<void> => {
    const database = request.databases[at];
    return database === undefined
      ? commitFolder()
      : writePostgisTables(database, tables, mark, () => commitNext(at + 1));
  };
  await commitNext(0);
}
