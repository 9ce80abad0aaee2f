import { utf16Kind } from "./text/decode-text.ts";
import { unreadableFile } from "./unreadable-file.ts";

/** What the content of a file is, before it is opened. */
export type Container = "json" | "csv" | "zip" | "gzip" | "sqlite" | "flatgeobuf" | "parquet";

/** Beginnings of binary formats (their published signatures). */
const SIGNATURES: readonly (readonly [Container, readonly number[]])[] = [
  ["zip", [0x50, 0x4b, 0x03, 0x04]],
  ["zip", [0x50, 0x4b, 0x05, 0x06]],
  ["gzip", [0x1f, 0x8b]],
  ["sqlite", [...ascii("SQLite format 3"), 0]],
  ["flatgeobuf", [0x66, 0x67, 0x62, 0x03, 0x66, 0x67, 0x62]],
  ["parquet", ascii("PAR1")],
];

/** Formats that are recognized only to say what to do instead. */
const NOT_READ: readonly (readonly [readonly number[], string, string])[] = [
  [ascii("%PDF"), "a PDF", "Ask for the data behind it as CSV, GeoJSON or a zipped shapefile."],
  [[0xd0, 0xcf, 0x11, 0xe0], "an old Excel or Office file", "Save the sheet as CSV."],
  [
    [0x00, 0x00, 0x27, 0x0a],
    "a bare .shp or .shx file",
    "Zip the .shp with its .dbf, .prj and .cpg, and give the zip.",
  ],
  [[0x49, 0x49, 0x2a, 0x00], "an image (TIFF)", "Give points, lines or polygons."],
  [[0x89, 0x50, 0x4e, 0x47], "an image (PNG)", "Give points, lines or polygons."],
  [[0x37, 0x7a, 0xbc, 0xaf], "a 7z archive", "Unpack it and give the file inside."],
  [ascii("Rar!"), "a RAR archive", "Unpack it and give the file inside."],
  [ascii("AC10"), "a DWG drawing", "Export the layer as GeoJSON or a zipped shapefile."],
];

const MARKUP: readonly (readonly [string, string, string])[] = [
  ["<!doctype html", "a web page, not data", "Download the file again; the address may need a login."],
  ["<html", "a web page, not data", "Download the file again; the address may need a login."],
  ["<kml", "KML", "Export the layer as GeoJSON, CSV or a zipped shapefile."],
  ["<gpx", "GPX", "Export the layer as GeoJSON, CSV or a zipped shapefile."],
  ["<?xml", "XML", "Export the layer as GeoJSON, CSV or a zipped shapefile."],
];

/**
 * What a file is: by its first bytes, then by whether its text begins like JSON, then by its name. Text that is neither is taken for CSV.
 * Throws UnreadableError for formats that are known and not read.
 */
export function detectFormat(bytes: Uint8Array, name: string): Container {
  for (const [container, signature] of SIGNATURES) if (startsWith(bytes, signature)) return container;
  for (const [signature, what, whatToDo] of NOT_READ) if (startsWith(bytes, signature)) throw notRead(what, whatToDo);
  const start = beginning(bytes);
  const lower = start.toLowerCase();
  for (const [mark, what, whatToDo] of MARKUP) if (lower.startsWith(mark)) throw notRead(what, whatToDo);
  if (isDbf(bytes, name)) throw notRead("a bare .dbf file", "Zip it with its .shp, .prj and .cpg, and give the zip.");
  if (start.startsWith("{") || start.startsWith("\u001e")) return "json";
  const ending = name.slice(name.lastIndexOf(".") + 1).toLowerCase();
  if (["csv", "tsv", "tab", "txt", "psv"].includes(ending)) return "csv";
  if (["geojson", "json", "geojsonl", "geojsons", "ndjson", "jsonl"].includes(ending)) return "json";
  const claimed = CLAIMS.get(ending);
  if (claimed !== undefined) {
    throw unreadableFile(
      "wrong-content",
      `The file is called .${ending}, but its content is no ${claimed}.`,
      "Export or download it anew.",
    );
  }
  return start.startsWith("[") || start === "" ? "json" : "csv";
}

/** Endings that promise a binary format. */
const CLAIMS: ReadonlyMap<string, string> = new Map([
  ["zip", "zip file"],
  ["gz", "gzip file"],
  ["gpkg", "GeoPackage"],
  ["fgb", "FlatGeobuf"],
  ["parquet", "Parquet file"],
  ["geoparquet", "Parquet file"],
]);

const notRead = (what: string, whatToDo: string): Error =>
  unreadableFile("format-not-read", `The file is ${what}; that is not read.`, whatToDo);

/** The first characters that are no blanks, whatever the encoding; at most 64. */
function beginning(bytes: Uint8Array): string {
  const kind = utf16Kind(bytes);
  const decoder = new TextDecoder(kind === null ? "utf-8" : `utf-16${kind}`);
  return decoder.decode(bytes.subarray(0, 1024)).trimStart().slice(0, 64);
}

function isDbf(bytes: Uint8Array, name: string): boolean {
  return name.toLowerCase().endsWith(".dbf") && [0x03, 0x83, 0x8b, 0x30, 0xf5].includes(bytes[0] ?? 0);
}

function startsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, at) => bytes[at] === byte);
}

function ascii(text: string): number[] {
  return [...text].map((letter) => letter.charCodeAt(0));
}
