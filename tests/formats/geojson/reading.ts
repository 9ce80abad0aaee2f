import type { Layer } from "../../../src/core/model/terms.ts";
import type { GeoJsonRead } from "../../../src/formats/geojson/geojson-read.ts";
import { type ReadGeoJsonOptions, readGeoJson } from "../../../src/formats/geojson/read-geojson.ts";
import { joinBytes } from "../../../src/formats/join-bytes.ts";

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
export const textOf = (chunks: Iterable<Uint8Array>): string => new TextDecoder().decode(joinBytes(chunks));

/** Reads a text as a file of a layer, trees unless another is named. */
export const readText = (text: string, how: Partial<ReadGeoJsonOptions> = {}): GeoJsonRead =>
  readGeoJson(bytesOf(text), { layer: "trees", file: "test.geojson", ...how });

/** A collection's text around features that are written out. */
export const collection = (...features: readonly string[]): string =>
  `{"type":"FeatureCollection","features":[${features.join(",")}]}`;

/** A feature's text with the given geometry. */
export const feature = (geometry: unknown, properties = "{}"): string =>
  `{"type":"Feature","properties":${properties},"geometry":${JSON.stringify(geometry)}}`;

export const point = (lonDeg: number, latDeg: number, properties = "{}"): string =>
  feature({ type: "Point", coordinates: [lonDeg, latDeg] }, properties);

/** The code that sets the only feature of a layer aside, or null when it is used. */
export function codeFor(geometry: unknown, layer: Layer): string | null {
  const read = readText(collection(feature(geometry)), { layer });
  return read.setAside[0]?.finding.code ?? null;
}
