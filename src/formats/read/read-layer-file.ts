import type { Finding } from "../../core/model/finding.ts";
import type { SetAside } from "../../core/model/plan.ts";
import type { GeoJsonRead, Verdict } from "../geojson/geojson-read.ts";
import { UnreadableError } from "../geojson/open-document.ts";
import { type ReadGeoJsonOptions, unreadFile } from "../geojson/read-geojson.ts";
import { readGeoJsonFile } from "../geojson/read-geojson-file.ts";
import type { Converted } from "./converted.ts";
import { toGeoJson } from "./to-geojson.ts";

/** How a file of any format is to be read for its layer. */
export interface ReadLayerOptions extends ReadGeoJsonOptions {
  /** The table of a GeoPackage or the shapefile of a zip, where there are several. */
  readonly table?: string | null;
}

/**
 * A file of any format read for one layer: as `readGeoJsonFile` reads GeoJSON, whose bytes stay as they are. Findings about the format come
 * first, and a row without a usable geometry is set aside with the reason its own format gives. A file that cannot be read has `fault`.
 * Rejects with RangeError only for an unknown `crs` option.
 */
export async function readLayerFile(bytes: Uint8Array, how: ReadLayerOptions): Promise<GeoJsonRead> {
  const { layer, file, table = null } = how;
  let converted: Converted;
  try {
    converted = await toGeoJson(bytes, file, { layer, table, ...(how.time === undefined ? {} : { time: how.time }) });
  } catch (error) {
    if (error instanceof UnreadableError) return unreadFile(bytes, how, error.fault);
    throw error;
  }
  return await readConverted(converted, how);
}

/** {@link readLayerFile} of a file that is converted already. */
export async function readConverted(converted: Converted, how: ReadGeoJsonOptions): Promise<GeoJsonRead> {
  const { layer, file } = how;
  const read = await readGeoJsonFile(converted.bytes, how);
  if (converted.findings.length === 0 && converted.rowFaults.size === 0 && converted.axesAdvice === undefined)
    return read;
  const findings = [...converted.findings.map((fault) => ({ ...fault, layer, file, feature: null })), ...read.findings];
  const setAside = read.setAside.map((one) => withRowFault(one, read.firstOrdinal, converted));
  const named = { ...read, findings, setAside, verdict: verdictWith(read.verdict, findings) };
  return converted.axesAdvice === undefined ? named : withAxesAdvice(named, converted.axesAdvice);
}

/** What a person does about exchanged axes depends on the format: a table has columns to exchange. */
function withAxesAdvice(read: GeoJsonRead, axesAdvice: string): GeoJsonRead {
  const advised = (finding: Finding): Finding =>
    finding.code === "swapped-axes" ? { ...finding, whatToDo: axesAdvice } : finding;
  const setAside = read.setAside.map((one) => ({ ...one, finding: advised(one.finding) }));
  return { ...read, axesAdvice, setAside, findings: read.findings.map(advised) };
}

/** Only a missing geometry is explained by its format; what a filter or a check says stands. */
function withRowFault(one: SetAside, firstOrdinal: number, { rowFaults }: Converted): SetAside {
  const fault = rowFaults.get(one.ordinal - firstOrdinal);
  return fault === undefined || one.finding.code !== "no-geometry"
    ? one
    : { ...one, finding: { ...one.finding, ...fault } };
}

const verdictWith = (verdict: Verdict, findings: GeoJsonRead["findings"]): Verdict =>
  verdict === "clean" && findings.some(({ severity }) => severity !== "info") ? "warnings" : verdict;
