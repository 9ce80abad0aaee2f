import type { FileMetaData, SchemaTree } from "hyparquet";
import { unreadableFile } from "../unreadable-file.ts";

/** Which column holds the geometry, how, and in what coordinate system. */
export interface GeoColumn {
  readonly name: string;
  /** `WKB`, or the kind of a geometry written as nested coordinates. */
  readonly encoding: string;
  /** For a `crs` member; null for longitude and latitude on WGS 84, undefined where the file says it is unknown. */
  readonly crs: string | null | undefined;
}

const NESTED = ["point", "linestring", "polygon", "multipoint", "multilinestring", "multipolygon"];
const MAX_METADATA = 1_000_000;

/** The geometry column: the primary one of the `geo` metadata (GeoParquet 1.1), else the first of Parquet's own geometry type. */
export function geoColumn(metadata: FileMetaData, tree: SchemaTree): GeoColumn {
  const text = metadata.key_value_metadata?.find(({ key }) => key === "geo")?.value;
  return (text === undefined ? null : fromMetadata(text)) ?? fromType(tree);
}

function fromMetadata(text: string): GeoColumn | null {
  let geo: unknown;
  try {
    geo = text.length > MAX_METADATA ? null : JSON.parse(text);
  } catch {
    throw unreadableFile("bad-metadata", "The geo metadata of the Parquet file is no JSON.", "Write the file anew.");
  }
  const columns = member(geo, "columns");
  const primary = member(geo, "primary_column");
  const name = typeof primary === "string" ? primary : Object.keys(columns ?? {})[0];
  const column = name === undefined ? undefined : member(columns, name);
  if (name === undefined || column === undefined) return null;
  const encoding = String(member(column, "encoding"));
  if (encoding !== "WKB" && !NESTED.includes(encoding)) {
    throw unreadableFile(
      "encoding-not-read",
      `Geometries written as ${encoding.slice(0, 40)} are not read.`,
      "Write them as WKB.",
    );
  }
  const crs = member(column, "crs");
  return { name, encoding, crs: crs === undefined ? null : crs === null ? undefined : projJsonName(crs) };
}

function fromType(tree: SchemaTree): GeoColumn {
  for (const { element } of tree.children) {
    const logical = element.logical_type as { type?: string; crs?: string } | undefined;
    if (logical?.type !== "GEOMETRY" && logical?.type !== "GEOGRAPHY") continue;
    const crs = logical.crs ?? "";
    return { name: element.name, encoding: "WKB", crs: crs === "" || isPlain(crs) ? null : crs };
  }
  throw unreadableFile(
    "no-position",
    "The Parquet file has no geometry column.",
    "Write it as GeoParquet, or give CSV with longitude and latitude.",
  );
}

/** A PROJJSON's code where it names one, else the definition itself. */
function projJsonName(crs: unknown): string | null {
  const id = member(crs, "id");
  const authority = member(id, "authority");
  const code = member(id, "code");
  const name = `${String(authority).toUpperCase()}:${String(code)}`;
  if (typeof authority !== "string" || code === undefined) return JSON.stringify(crs);
  return isPlain(name) ? null : name;
}

const isPlain = (name: string): boolean => ["EPSG:4326", "OGC:CRS84", "OGC:CRS84H"].includes(name.toUpperCase());

function member(value: unknown, name: string): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, name)) return undefined;
  return (value as Record<string, unknown>)[name];
}
