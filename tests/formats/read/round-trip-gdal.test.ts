import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Layer } from "../../../src/core/model/terms.ts";
import { farthest, fixturePath, hasOgr2ogr, ogr2ogr, plainCoordinates, readAs, sourceFeatures } from "./reading.ts";

/** Nine decimals are kept when coordinates are converted; see fixtures.test.ts. */
const TOLERANCE_DEG = 1e-9;
/** Systems in meters, US survey feet and international feet, and two in degrees. */
const SYSTEMS = ["EPSG:4326", "EPSG:4269", "EPSG:32618", "EPSG:2263", "EPSG:3857"];
const SOURCES: readonly [string, Layer][] = [
  ["areas", "buildings"],
  ["trees", "trees"],
  ["roads", "roads"],
];

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), "read-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A source written by ogr2ogr now, whatever its version. */
function written(format: string, source: string, system: string): { name: string; bytes: Uint8Array } {
  const stem = `${source}-${system.slice(5)}`;
  const ending = { GPKG: "gpkg", FlatGeobuf: "fgb", "ESRI Shapefile": "shp", CSV: "csv" }[format]!;
  const file = path.join(folder, `${stem}.${ending}`);
  const more =
    format === "CSV" ? ["-lco", "GEOMETRY=AS_WKT"] : format === "ESRI Shapefile" ? ["-lco", "ENCODING=UTF-8"] : [];
  ogr2ogr("-f", format, "-t_srs", system, ...more, file, fixturePath(`${source}.geojson`), "-nln", stem);
  if (ending !== "shp") return { name: `${stem}.${ending}`, bytes: new Uint8Array(readFileSync(file)) };
  const parts = ["shp", "dbf", "prj", "cpg"].map(
    (part) => [`${stem}.${part}`, new Uint8Array(readFileSync(path.join(folder, `${stem}.${part}`)))] as const,
  );
  return { name: `${stem}.zip`, bytes: zipSync(Object.fromEntries(parts)) };
}

const CASES = ["GPKG", "FlatGeobuf", "ESRI Shapefile", "CSV"].flatMap((format) =>
  SYSTEMS.flatMap((system) => SOURCES.map(([source, layer]) => [format, source, layer, system] as const)),
);

describe.skipIf(!hasOgr2ogr)("what the installed ogr2ogr writes (skipped without gdal-bin)", () => {
  it.each(CASES)("%s of %s as %s in %s", async (format, source, layer, system) => {
    const { name, bytes } = written(format, source, system);
    // A CSV says nothing of its system.
    const read = await readAs(name, bytes, { layer, ...(format === "CSV" ? { crs: system } : {}) });
    expect(read.fault).toBeNull();
    const wanted = sourceFeatures(`${source}.geojson`);
    const placed = [...wanted.values()].filter(({ geometry }) => geometry !== null);
    expect(read.counts.used).toBe(placed.length);
    for (const feature of read.features) {
      const key = Object.keys(placed[0]!.properties!)[0]!;
      const like = wanted.get(feature.properties[key])!;
      // ogr2ogr leaves heights out of some mixed layers.
      const flat = (value: unknown): unknown =>
        Array.isArray(value) ? (typeof value[0] === "number" ? value.slice(0, 2) : value.map(flat)) : value;
      const difference = farthest(flat(plainCoordinates(feature.geometry)), flat(plainCoordinates(like.geometry)));
      expect(difference).toBeLessThanOrEqual(TOLERANCE_DEG);
      for (const name of ["name", "big", "species", "note", "road"]) {
        if (!Object.hasOwn(like.properties!, name)) continue;
        const value = like.properties![name];
        expect(String(feature.properties[name])).toBe(String(value));
      }
    }
  });
});
