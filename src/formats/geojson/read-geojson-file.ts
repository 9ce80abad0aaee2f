import { builtInSystem } from "../crs/built-in-system.ts";
import { findAnySystem } from "../crs/coordinate-system.ts";
import type { GeoJsonRead } from "./geojson-read.ts";
import { type ReadGeoJsonOptions, readGeoJson } from "./read-geojson.ts";

/** A legacy `crs` member stands before or behind the features; this many bytes at either end are looked at. Our policy. */
const LOOKED_AT = 1 << 16;

/**
 * {@link readGeoJson} with every coordinate system known: the table of systems is loaded when the option asks for one of its systems or
 * the file has a `crs` member. Rejects with RangeError for an unknown `crs` option.
 */
export async function readGeoJsonFile(bytes: Uint8Array, how: ReadGeoJsonOptions): Promise<GeoJsonRead> {
  const needsTable = (typeof how.crs === "string" && builtInSystem(how.crs) === null) || mentionsCrs(bytes);
  return readGeoJson(bytes, needsTable ? { ...how, findSystem: await findAnySystem() } : how);
}

function mentionsCrs(bytes: Uint8Array): boolean {
  const decoder = new TextDecoder("latin1");
  const ends = [bytes.subarray(0, LOOKED_AT), bytes.subarray(-LOOKED_AT)];
  return ends.some((end) => decoder.decode(end).includes('"crs"'));
}
