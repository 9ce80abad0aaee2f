import { type FileMetaData, parquetMetadata, parquetRead, parquetSchema } from "hyparquet";
import { withThousands } from "../../../core/units/with-thousands.ts";
import { UnreadableError } from "../../geojson/open-document.ts";
import { type Converted, doubt, measuresDropped, note, type ReaderInput } from "../converted.ts";
import { FeatureWriter } from "../feature-writer.ts";
import { GeometryError, noGeometry, type ReadGeometry, readGeometrySafely } from "../geometry/geometry-fault.ts";
import { readWkb } from "../geometry/read-wkb.ts";
import { uniqueNames } from "../unique-names.ts";
import { damaged, pastLimit } from "../unreadable-file.ts";
import { checkPages } from "./check-pages.ts";
import { decompressors } from "./decompressors.ts";
import { type GeoColumn, geoColumn } from "./geo-metadata.ts";
import { nestedGeometry } from "./nested-geometry.ts";
import { EXACT_PARSERS, exactColumn, topElements } from "./parquet-values.ts";

/**
 * A GeoParquet file as GeoJSON, in the order of its rows: geometries as WKB or nested coordinates, in the system of their PROJJSON.
 * Decimals and whole numbers keep all digits. Every page is checked before it is believed. Throws UnreadableError for a file that is
 * damaged, has no geometry column, or is packed or written in a way that is not read.
 */
export async function readGeoParquet(input: ReaderInput): Promise<Converted> {
  try {
    return await readChecked(input);
  } catch (error) {
    if (error instanceof UnreadableError) throw error;
    throw damaged("Parquet file", error instanceof Error ? error.message.slice(0, 160) : "it cannot be read");
  }
}

async function readChecked({ bytes, limits, time }: ReaderInput): Promise<Converted> {
  const metadata = parquetMetadata(bytes, { parsers: EXACT_PARSERS, geoparquet: false });
  const rows = metadata.row_groups.reduce((sum, group) => sum + Number(group.num_rows), 0);
  if (rows !== Number(metadata.num_rows) || metadata.row_groups.some(({ num_rows }) => num_rows < 0n)) {
    throw damaged("Parquet file", "its row groups have not as many rows as it says");
  }
  if (rows > limits.rows) throw pastLimit(`${withThousands(rows)} rows`, limits.rows, "Split the file.");
  const tree = parquetSchema(metadata);
  const geometry = geoColumn(metadata, tree);
  const columns = topElements(metadata);
  const at = columns.findIndex(({ name }) => name === geometry.name);
  if (at === -1) throw damaged("Parquet file", "its geometry column is missing");
  if (columns.length > limits.columns)
    throw pastLimit(`${columns.length} columns`, limits.columns, "Leave columns out.");
  checkPages(bytes, metadata, limits);
  const toValue = columns.map((element, index) => (index === at ? () => null : exactColumn(element)));
  const { names } = uniqueNames(
    columns.map(({ name }) => name).filter((_, index) => index !== at),
    columns.length - 1,
  );
  const writer = new FeatureWriter(names, geometry.crs ?? null, limits, { rows, valueBytes: bytes.length * 2 });
  for await (const batch of rowGroups(bytes, metadata, limits)) {
    for (const row of batch) {
      time.step();
      if (row.some((value) => value === undefined)) throw damaged("Parquet file", "values of a column are missing");
      const values = row.map((value, index) => toValue[index]!(value)).filter((_, index) => index !== at);
      writer.add(values, readColumnGeometry(row[at], geometry));
    }
  }
  const read = note(
    "format-read",
    `Read as GeoParquet: ${withThousands(writer.rows)} rows, ${withThousands(names.length)} columns.`,
  );
  const findings = [read];
  if (geometry.crs === undefined) {
    findings.push(
      doubt(
        "no-crs",
        "The file says its coordinate system is unknown; the coordinates were taken for longitude and latitude.",
        "Give --crs EPSG:n if they are not.",
      ),
    );
  }
  if (writer.droppedMeasures) findings.push(measuresDropped());
  return { format: "GeoParquet", bytes: writer.end(), findings, rowFaults: writer.rowFaults };
}

/** Rows of one group after another, so that no more than one is held as values. */
async function* rowGroups(
  bytes: Uint8Array,
  metadata: FileMetaData,
  limits: ReaderInput["limits"],
): AsyncGenerator<unknown[][]> {
  const file = {
    byteLength: bytes.length,
    slice: (start: number, end?: number) => bytes.slice(start, end).buffer as ArrayBuffer,
  };
  let start = 0;
  for (const group of metadata.row_groups) {
    const end = start + Number(group.num_rows);
    let batch: unknown[][] = [];
    await parquetRead({
      file,
      metadata,
      rowStart: start,
      rowEnd: end,
      rowFormat: "array",
      utf8: false,
      geoparquet: false,
      parsers: EXACT_PARSERS,
      compressors: decompressors(limits),
      onComplete: (rows: unknown[][]) => {
        batch = rows;
      },
    } as never);
    yield batch;
    start = end;
  }
}

function readColumnGeometry(value: unknown, { encoding }: GeoColumn): ReadGeometry {
  if (value === null || value === undefined) return noGeometry();
  return readGeometrySafely(() => {
    if (encoding !== "WKB") return nestedGeometry(value, encoding);
    if (!(value instanceof Uint8Array)) throw new GeometryError("The geometry is no well-known binary.");
    return readWkb(value);
  });
}
