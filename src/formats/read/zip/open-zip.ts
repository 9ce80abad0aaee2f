import type { Converted, ReaderInput } from "../converted.ts";
import { pickTable } from "../pick-table.ts";
import { readShapefile, type ShapefileParts } from "../shapefile/read-shapefile.ts";
import { unreadableFile } from "../unreadable-file.ts";
import { type Budget, newBudget } from "./inflate-bounded.ts";
import { unpackEntry, type ZipEntry, zipEntries } from "./zip-entries.ts";

/** Endings of the formats that are read out of a zip, beside shapefiles. */
const LAYER_ENDINGS: ReadonlySet<string> = new Set([
  ..."geojson json geojsonl geojsons ndjson jsonl csv tsv txt tab psv gpkg fgb parquet geoparquet gz".split(" "),
]);

/**
 * The shapefile in a zip as GeoJSON, or the one other layer file in it, unpacked. Only files with known endings are unpacked, into memory
 * and within the limits; paths in the zip are never used. Throws UnreadableError where there is none, or a choice nobody made.
 */
export function openZip(input: ReaderInput): Converted | { bytes: Uint8Array; name: string } {
  const { bytes, limits, options, time } = input;
  const entries = zipEntries(bytes, limits);
  const budget = newBudget(limits, time);
  const { candidates, names, areShapefiles } = layersInZip(entries);
  if (candidates.length === 0) throw nothingToRead(entries);
  const picked = pickTable(names, options, "zip");
  const entry = candidates[picked.index]!;
  if (!areShapefiles) return { bytes: unpackEntry(bytes, entry, budget, limits), name: entry.name };
  const parts = shapefileParts(bytes, entries, entry, budget, limits);
  return readShapefile(parts, entry.name, { limits, time }, picked.findings);
}

/** The entries of a zip that can be layers, shapefiles if there are any, with their names for people. */
export function layersInZip(entries: readonly ZipEntry[]): {
  readonly candidates: readonly ZipEntry[];
  readonly names: readonly string[];
  readonly areShapefiles: boolean;
} {
  const shapes = entries.filter(({ name }) => ending(name) === "shp");
  const areShapefiles = shapes.length > 0;
  const candidates = areShapefiles ? shapes : entries.filter(({ name }) => LAYER_ENDINGS.has(ending(name)));
  return { candidates, names: candidates.map(({ path }) => (areShapefiles ? stem(path) : path)), areShapefiles };
}

function shapefileParts(
  bytes: Uint8Array,
  entries: readonly ZipEntry[],
  shp: ZipEntry,
  budget: Budget,
  limits: ReaderInput["limits"],
): ShapefileParts {
  const base = stem(shp.path).toLowerCase();
  const part = (wanted: string): Uint8Array | null => {
    const entry = entries.find(({ path, name }) => ending(name) === wanted && stem(path).toLowerCase() === base);
    return entry === undefined ? null : unpackEntry(bytes, entry, budget, limits);
  };
  return {
    shp: unpackEntry(bytes, shp, budget, limits),
    dbf: part("dbf"),
    prj: part("prj"),
    cpg: part("cpg") ?? part("cst"),
  };
}

function nothingToRead(entries: readonly ZipEntry[]): Error {
  const paths = entries.map(({ path }) => path.toLowerCase());
  const endings = new Set(entries.map(({ name }) => ending(name)));
  if (paths.includes("[content_types].xml")) {
    return unreadableFile(
      "format-not-read",
      "The file is an Excel or Office file; that is not read.",
      "Save the sheet as CSV.",
    );
  }
  if (endings.has("gdbtable")) {
    return unreadableFile(
      "format-not-read",
      "The zip holds a file geodatabase; that is not read.",
      "Export the layer as GeoPackage or shapefile.",
    );
  }
  if (endings.has("kml")) {
    return unreadableFile(
      "format-not-read",
      "The file is KMZ; that is not read.",
      "Export the layer as GeoJSON, CSV or a zipped shapefile.",
    );
  }
  const shown = [...endings].slice(0, 10).join(", ").slice(0, 120);
  return unreadableFile(
    "nothing-in-zip",
    `The zip holds no layer that is read${shown === "" ? "" : `; its files end in ${shown}`}.`,
    "Zip a shapefile (.shp, .dbf, .prj, .cpg), or give GeoJSON, CSV, GeoPackage, FlatGeobuf or GeoParquet.",
  );
}

const ending = (name: string): string => name.slice(name.lastIndexOf(".") + 1).toLowerCase();
const stem = (path: string): string => path.slice(0, path.lastIndexOf("."));
