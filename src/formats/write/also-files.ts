import type { PlanManifest } from "../../core/plan/plan-manifest.ts";
import type { LayerTable } from "./layer-table.ts";
import { fileText, type RevisionFiles } from "./revision-files.ts";
import { revisionTables, type TableColumns } from "./revision-tables.ts";
import { tableCsv } from "./table-csv.ts";
import { type ExtendedRevision, withFindings } from "./with-findings.ts";
import { writeFlatGeobuf } from "./write-flatgeobuf.ts";
import { writeGeoPackage } from "./write-geopackage.ts";
import { writeGeoParquet } from "./write-geoparquet.ts";

/** Formats a plan can be written in beside GeoJSON: GeoPackage, FlatGeobuf, GeoParquet, CSV. */
export const ALSO_FORMATS = ["gpkg", "fgb", "parquet", "csv"] as const;
export type AlsoFormat = (typeof ALSO_FORMATS)[number];

/** Tables that get a file of their own in the formats that hold one table a file. */
const SINGLE_TABLES = ["trees", "conflicts", "zones"];

/**
 * A revision's files with the formats asked for: `plan.gpkg` with every table, and `trees`, `conflicts` and `zones` as `.fgb`, `.parquet` and `.csv`. The same files
 * and formats make the same bytes. Throws Error naming a file that the revision lacks.
 */
export async function alsoFiles(
  files: RevisionFiles,
  formats: readonly AlsoFormat[],
  columns: TableColumns = "all",
): Promise<ExtendedRevision> {
  if (formats.length === 0) return { files, findings: [] };
  const made = revisionTables(files, columns);
  const told = withFindings(files, made.findings);
  const { tables } = told.findings.length === 0 ? made : revisionTables(told.files, columns);
  const all = new Map(told.files);
  for (const format of ALSO_FORMATS) {
    if (!formats.includes(format)) continue;
    for (const [name, bytes] of await filesOf(format, tables, asOf(files))) all.set(name, bytes);
  }
  return { files: all, findings: told.findings };
}

async function filesOf(
  format: AlsoFormat,
  tables: readonly LayerTable[],
  changedOn: string,
): Promise<[string, Uint8Array][]> {
  if (format === "gpkg") return [["plan.gpkg", await writeGeoPackage(tables, changedOn)]];
  const made: [string, Uint8Array][] = [];
  for (const name of SINGLE_TABLES) {
    const table = tables.find((one) => one.name === name);
    if (table !== undefined) made.push([`${name}.${format}`, await writeTable(table, format)]);
  }
  return made;
}

/** One table as a file of a format that holds one table. */
export async function writeTable(table: LayerTable, format: Exclude<AlsoFormat, "gpkg">): Promise<Uint8Array> {
  if (format === "fgb") return await writeFlatGeobuf(table);
  if (format === "parquet") return await writeGeoParquet(table);
  return new TextEncoder().encode(tableCsv(table));
}

/** The plan's as-of date from `plan.json`. */
export const asOf = (files: RevisionFiles): string => (JSON.parse(fileText(files, "plan.json")) as PlanManifest).as_of;
