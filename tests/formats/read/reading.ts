import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import path from "node:path";
import type { Feature, FeatureCollection, Geometry, Position } from "geojson";
import type { Layer } from "../../../src/core/model/terms.ts";
import type { GeoJsonRead } from "../../../src/formats/geojson/geojson-read.ts";
import { UnreadableError } from "../../../src/formats/geojson/open-document.ts";
import type { Converted, ReadOptions } from "../../../src/formats/read/converted.ts";
import { type ReadLayerOptions, readLayerFile } from "../../../src/formats/read/read-layer-file.ts";
import { toGeoJson } from "../../../src/formats/read/to-geojson.ts";

const FIXTURES = path.join(import.meta.dirname, "fixtures");

export const fixture = (name: string): Uint8Array => new Uint8Array(readFileSync(path.join(FIXTURES, name)));
export const fixturePath = (name: string): string => path.join(FIXTURES, name);
export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The features of a source fixture, by the value of their first property. */
export function sourceFeatures(name: string): Map<unknown, Feature> {
  const { features } = JSON.parse(exactIntegers(new TextDecoder().decode(fixture(name)))) as FeatureCollection;
  return new Map(features.map((feature) => [Object.values(feature.properties!)[0], feature]));
}

/** Whole numbers past 2^53 as the text they stand for, which is how they are to be kept. */
const exactIntegers = (text: string): string => text.replace(/:(-?\d{16,})/g, ':"$1"');

/** A file read as a layer. */
export const readAs = (name: string, bytes: Uint8Array, how: Partial<ReadLayerOptions> = {}): Promise<GeoJsonRead> =>
  readLayerFile(bytes, { layer: "buildings", file: name, ...how });

export const readFixture = (name: string, layer: Layer, how: Partial<ReadLayerOptions> = {}): Promise<GeoJsonRead> =>
  readAs(name, fixture(name), { layer, ...how });

/** A text read as a CSV file of trees. */
export const readCsvText = (text: string, how: Partial<ReadLayerOptions> = {}): Promise<GeoJsonRead> =>
  readAs("trees.csv", bytesOf(text), { layer: "trees", ...how });

/** The parsed features of a conversion. */
export function featuresOf({ bytes }: Converted): Feature[] {
  return (JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes)) as FeatureCollection).features;
}

/** The code with which a file is refused, or null when it is read. Any other error fails the test. */
export async function refusal(name: string, bytes: Uint8Array, options: ReadOptions = {}): Promise<string | null> {
  try {
    await toGeoJson(bytes, name, options);
    return null;
  } catch (error) {
    if (error instanceof UnreadableError) return error.fault.code;
    throw error;
  }
}

export const codes = (read: GeoJsonRead): string[] => read.findings.map(({ code }) => code);

/** Coordinates without what formats do not keep: where a ring begins and which way it turns, and a Multi of one part. */
export function plainCoordinates(geometry: Geometry): unknown {
  switch (geometry.type) {
    case "Polygon":
      return [geometry.coordinates.map(plainRing)];
    case "MultiPolygon":
      return geometry.coordinates.map((polygon) => polygon.map(plainRing));
    case "LineString":
      return [geometry.coordinates];
    case "GeometryCollection":
      return geometry.geometries.map(plainCoordinates);
    default:
      return geometry.coordinates;
  }
}

function plainRing(ring: readonly Position[]): Position[] {
  const open = ring.slice(0, -1);
  const twice = open.reduce((sum, [x, y], at) => {
    const [nextX, nextY] = open[(at + 1) % open.length]!;
    return sum + (nextX! - x!) * (nextY! + y!);
  }, 0);
  const turned = twice > 0 ? open.toReversed() : open;
  const key = ([x, y]: Position): number => Math.round(x! * 1e6) * 1e9 + Math.round(y! * 1e6);
  const first = turned.reduce((best, position, at) => (key(position) < key(turned[best]!) ? at : best), 0);
  return [...turned.slice(first), ...turned.slice(0, first)];
}

/** Largest difference between two nestings of numbers; Infinity where their shapes differ. */
export function farthest(one: unknown, other: unknown): number {
  if (typeof one === "number" && typeof other === "number") return Math.abs(one - other);
  if (!Array.isArray(one) || !Array.isArray(other) || one.length !== other.length) return Number.POSITIVE_INFINITY;
  return one.reduce((most: number, part, at) => Math.max(most, farthest(part, other[at])), 0);
}

/** Milliseconds of processor time since some moment; unlike the clock's, they do not grow with what else the machine does. */
export function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Whether ogr2ogr, the independent writer, is on this machine (Debian package gdal-bin). */
export const hasOgr2ogr: boolean = spawnSync("ogr2ogr", ["--version"]).status === 0;

/** Runs ogr2ogr; throws with its message when it fails. */
export function ogr2ogr(...args: readonly string[]): void {
  const { status, stderr } = spawnSync("ogr2ogr", args, { encoding: "utf8" });
  if (status !== 0) throw new Error(`ogr2ogr ${args.join(" ")}: ${stderr}`);
}
