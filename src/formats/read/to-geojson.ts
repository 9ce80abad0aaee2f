import { withThousands } from "../../core/units/with-thousands.ts";
import { ReadingTime } from "../geojson/reading-time.ts";
import { type Converted, doubt, note, type ReaderInput, type ReadOptions } from "./converted.ts";
import { detectFormat } from "./detect-format.ts";
import { GrowingBytes } from "./growing-bytes.ts";
import { LIMITS } from "./limits.ts";
import { decodeText, utf16Kind } from "./text/decode-text.ts";
import { pastLimit, unreadableFile } from "./unreadable-file.ts";

/**
 * A file of any format that is read, as GeoJSON: GeoJSON itself (newline-delimited and RFC 8142 too) passes through byte for byte, CSV,
 * zipped shapefiles, GeoPackage, FlatGeobuf and GeoParquet are converted, gzip and zip around one of them are taken off.
 *
 * Told apart by content first, then by name. Nothing is lost: every column keeps its name, text stays text, whole numbers past 2^53
 * become text, coordinates stay in the file's own system, which the result's `crs` member names. Readers other than GeoJSON's are
 * loaded when they are first needed. Rejects with UnreadableError, in plain sentences, for a file that cannot be read.
 */
export async function toGeoJson(bytes: Uint8Array, name: string, options: ReadOptions = {}): Promise<Converted> {
  const limits = { ...LIMITS, ...options.limits };
  if (bytes.length > limits.fileBytes)
    throw pastLimit(`${withThousands(bytes.length)} bytes`, limits.fileBytes, "Split the file.");
  // A Node Buffer's slice is a view where an array's is a copy.
  const plain = bytes.constructor === Uint8Array ? bytes : new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.length);
  return convert({ bytes: plain, name, options, limits, time: options.time ?? new ReadingTime() }, 0);
}

/** Wrappings inside one another, gzip in zip for example; our policy. */
const MAX_WRAPPINGS = 2;

async function convert(input: ReaderInput, wrappings: number): Promise<Converted> {
  const container = detectFormat(input.bytes, input.name);
  switch (container) {
    case "json":
      return jsonText(input);
    case "csv":
      return (await import("./csv/read-csv-table.ts")).readCsvTable(input);
    case "sqlite":
      return (await import("./geopackage/read-geopackage.ts")).readGeoPackage(input);
    case "flatgeobuf":
      return (await import("./flatgeobuf/read-flatgeobuf.ts")).readFlatGeobuf(input);
    case "parquet":
      return (await import("./geoparquet/read-geoparquet.ts")).readGeoParquet(input);
    case "gzip":
    case "zip":
      break;
  }
  if (wrappings >= MAX_WRAPPINGS) {
    throw unreadableFile(
      "nested-archives",
      `The file is packed more than ${MAX_WRAPPINGS} times over.`,
      "Unpack it and give the file inside.",
    );
  }
  const inner = container === "gzip" ? await unpackGzip(input) : await openZip(input);
  if ("format" in inner) return inner;
  const converted = await convert({ ...input, ...inner }, wrappings + 1);
  const unpacked = note("unpacked", `${inner.name.slice(0, 120)} was taken out of the ${container} file.`);
  return { ...converted, findings: [unpacked, ...converted.findings] };
}

/** GeoJSON as it is, unless it is UTF-16: JSON is exchanged in UTF-8 only (RFC 8259 section 8.1), so other bytes are refused later. */
function jsonText({ bytes, limits, time }: ReaderInput): Converted {
  if (utf16Kind(bytes) === null) return { format: "GeoJSON", bytes, findings: [], rowFaults: new Map() };
  const { pieces, encoding } = decodeText(bytes);
  const written = new GrowingBytes(bytes.length / 2);
  for (const piece of pieces()) {
    time.step();
    written.text(piece);
    if (written.length > limits.fileBytes) throw pastLimit("more bytes as UTF-8", limits.fileBytes, "Split the file.");
  }
  const reason = `The file is ${encoding}, though GeoJSON is to be UTF-8; it is written back as UTF-8.`;
  const finding = doubt("converted-encoding", reason, "Save the file as UTF-8.");
  return { format: "GeoJSON", bytes: written.end(), findings: [finding], rowFaults: new Map() };
}

async function unpackGzip({ bytes, name, limits, time }: ReaderInput): Promise<{ bytes: Uint8Array; name: string }> {
  const { gunzip, newBudget } = await import("./zip/inflate-bounded.ts");
  const inner = name.toLowerCase().endsWith(".gz") ? name.slice(0, -".gz".length) : name;
  return { bytes: gunzip(bytes, newBudget(limits, time), limits), name: inner };
}

async function openZip(input: ReaderInput): Promise<Converted | { bytes: Uint8Array; name: string }> {
  return (await import("./zip/open-zip.ts")).openZip(input);
}
