import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import type { Feature, FeatureCollection, Point } from "geojson";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readLayerFile } from "../../../src/formats/read/read-layer-file.ts";
import { alsoFiles } from "../../../src/formats/write/also-files.ts";
import { fileText, type RevisionFiles } from "../../../src/formats/write/revision-files.ts";
import { ogr2ogr } from "../read/reading.ts";
import { gdalMissing, layerSummary, readFeatures } from "./gdal.ts";
import { fileRevision, treesRevision } from "./making.ts";

// Any format in -> plan -> every format out -> GDAL: ids, values and places of one small layer with every kind of value.

/** A ten-thousandth of a millimeter on the ground. */
const TOLERANCE_DEG = 1e-9;

const SOURCE = `{"type":"FeatureCollection","features":[
{"type":"Feature","id":"a-1","properties":{"TREEID":1,"BIG":9007199254740993,"NAME":"Érable \\"rouge\\", no. 1","DBH":12.5,"ALIVE":true,"PLANTED":"2019-04-05","SEEN":"2024-02-29T13:45:06","TAGS":["a","b c"]},"geometry":{"type":"Point","coordinates":[-89.123456789012,43.07]}},
{"type":"Feature","id":"a-2","properties":{"TREEID":2,"BIG":-9007199254740993,"NAME":"=1+1","DBH":40,"ALIVE":false,"PLANTED":"1969-12-31","SEEN":"1969-12-31T23:59:59","TAGS":["c"]},"geometry":{"type":"Point","coordinates":[-89.1235,43.0712345678901]}},
{"type":"Feature","id":"a-3","properties":{"TREEID":3,"BIG":7,"NAME":"樹 🌳","DBH":0.1,"ALIVE":true,"PLANTED":"2000-02-29","SEEN":"2000-01-01T00:00:01","TAGS":["d","e"]},"geometry":{"type":"Point","coordinates":[-89.1236,43.072]}},
{"type":"Feature","id":"a-4","properties":{"TREEID":4,"BIG":null,"NAME":null,"DBH":null,"ALIVE":null,"PLANTED":null,"SEEN":null,"TAGS":null},"geometry":{"type":"Point","coordinates":[-89.1237,43.073]}}
]}
`;
const exact = SOURCE.replace(/:(-?\d{16,})/g, ':"$1"');
const source = (JSON.parse(exact) as FeatureCollection<Point>).features;
const lines = SOURCE.trim()
  .split("\n")
  .slice(1, -1)
  .map((line) => line.replace(/,$/, ""));

/** A value without what formats write in their own ways: truth as 1 or 0, dates with slashes or a time of nought, lists as text. */
function plain(value: unknown): unknown {
  if (value === null || value === undefined) return "";
  if (typeof value === "boolean") return String(Number(value));
  if (value === "true" || value === "false") return String(Number(value === "true"));
  if (Array.isArray(value)) return JSON.stringify(value);
  const text = String(value);
  if (text.startsWith("[")) return JSON.stringify(JSON.parse(text));
  const when = /^(\d{4})[-/](\d\d)[-/](\d\d)(?:[T ](\d\d:\d\d:\d\d)(?:\.0+)?(?:Z|\+00(?::?00)?)?)?$/.exec(text);
  if (when === null) return text;
  const [, year, month, day, time = "00:00:00"] = when;
  return `${year}-${month}-${day}${time === "00:00:00" ? "" : `T${time}`}`;
}
/** What ogr2ogr itself makes of a value before this program sees it: lists as its own text, and days of times in a shapefile. */
function madeOf(format: string, name: string, value: unknown): unknown {
  if (name === "TAGS" && Array.isArray(value) && LISTS_AS_TEXT.includes(format))
    return `(${value.length}:${value.join(",")})`;
  if (name === "SEEN" && typeof value === "string" && format === "Shapefile") return value.slice(0, 10);
  return value;
}
const LISTS_AS_TEXT = ["GeoPackage", "FlatGeobuf", "Shapefile"];
const wantedOf = (format: string, at: number): [string, unknown][] =>
  Object.entries(source[at]!.properties!).map(([name, value]) => [name, plain(madeOf(format, name, value))]);
const plainAll = (members: object | null): Record<string, unknown> =>
  Object.fromEntries(Object.entries(members ?? {}).map(([name, value]) => [name, plain(value)]));
const placesOf = (features: readonly Feature[]): number[] =>
  features.flatMap(({ geometry }) => (geometry as Point).coordinates.slice(0, 2));
const farthestDeg = (one: readonly number[], other: readonly number[]): number =>
  one.length === other.length ? Math.max(...one.map((value, at) => Math.abs(value - other[at]!))) : Infinity;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "every-"));
  writeFileSync(join(folder, "source.geojson"), SOURCE);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The source as a file of a format, by ogr2ogr where there is one that writes it. */
async function sourceAs(format: string): Promise<{ name: string; bytes: Uint8Array }> {
  const written = (driver: string, ending: string, ...options: string[]): Uint8Array => {
    const file = join(folder, `trees.${ending}`);
    const lists = driver === "CSV" ? [] : ["-mapFieldType", "StringList=String"];
    ogr2ogr("-f", driver, ...options, ...lists, file, join(folder, "source.geojson"), "-nln", "trees");
    return new Uint8Array(readFileSync(file));
  };
  const text = (name: string, content: string) => ({ name, bytes: new TextEncoder().encode(content) });
  switch (format) {
    case "GeoJSON":
      return text("trees.geojson", SOURCE);
    case "newline-delimited":
      return text("trees.ndjson", `${lines.join("\n")}\n`);
    case "record separators":
      return text("trees.geojsons", lines.map((line) => `\u001e${line}\n`).join(""));
    case "CSV":
      return { name: "trees.csv", bytes: written("CSV", "csv", "-lco", "GEOMETRY=AS_WKT") };
    case "GeoPackage":
      return { name: "trees.gpkg", bytes: written("GPKG", "gpkg") };
    case "FlatGeobuf":
      return { name: "trees.fgb", bytes: written("FlatGeobuf", "fgb", "-lco", "SPATIAL_INDEX=NO") };
    case "Shapefile": {
      written("ESRI Shapefile", "shp", "-lco", "ENCODING=UTF-8");
      const parts = ["shp", "dbf", "prj", "cpg"].map((part) => [
        `trees.${part}`,
        readFileSync(join(folder, `trees.${part}`)),
      ]);
      return { name: "trees.zip", bytes: zipSync(Object.fromEntries(parts)) };
    }
    default: {
      // Debian's GDAL writes no Parquet: our own writer's file, of a plan of the same source.
      const { files } = await alsoFiles(await treesRevision(SOURCE), ["parquet"]);
      return { name: "trees.parquet", bytes: files.get("trees.parquet")! };
    }
  }
}

const FORMATS = [
  "GeoJSON",
  "newline-delimited",
  "record separators",
  "CSV",
  "GeoPackage",
  "FlatGeobuf",
  "Shapefile",
  "GeoParquet",
];

describe.skipIf(gdalMissing !== null)(
  `from any format through a plan to GDAL${gdalMissing === null ? "" : ` (skipped: ${gdalMissing})`}`,
  () => {
    describe.each(FORMATS)("%s", (format) => {
      let files: RevisionFiles;
      let trees: Feature<Point>[];

      beforeAll(async () => {
        const { name, bytes } = await sourceAs(format);
        ({ files } = await alsoFiles(await fileRevision(name, bytes), ["gpkg", "fgb", "parquet", "csv"]));
        trees = (JSON.parse(fileText(files, "trees.geojson")) as FeatureCollection<Point>).features;
        for (const one of ["plan.gpkg", "trees.fgb", "trees.csv"])
          writeFileSync(join(folder, `out-${one}`), files.get(one)!);
      }, 120_000);

      it("keeps ids, values and places in the plan", () => {
        expect(trees.length).toBe(source.length);
        trees.forEach(({ properties }, at) => {
          // Whole numbers past 2^53 stand in the file as they are, where the file is ours to keep.
          const got = plainAll(JSON.parse(JSON.stringify(properties)));
          for (const [name, value] of wantedOf(format, at)) {
            if (name === "BIG" && value !== "7" && value !== "") continue;
            expect([name, got[name]]).toEqual([name, value]);
          }
        });
        const written = fileText(files, "trees.geojson");
        for (const big of ["9007199254740993", "-9007199254740993"])
          expect(written).toMatch(new RegExp(`[:"]${big}[,"]`));
        expect(farthestDeg(placesOf(trees), placesOf(source))).toBeLessThanOrEqual(TOLERANCE_DEG);
      });

      it.each(["plan.gpkg", "trees.fgb", "trees.csv"])("gives %s that GDAL reads as the plan has it", (name) => {
        const file = join(folder, `out-${name}`);
        const isCsv = name === "trees.csv";
        const layer = name === "plan.gpkg" ? "trees" : isCsv ? "out-trees" : "trees";
        const xy = [
          "-oo",
          "X_POSSIBLE_NAMES=bough_lon",
          "-oo",
          "Y_POSSIBLE_NAMES=bough_lat",
          "-oo",
          "KEEP_GEOM_COLUMNS=NO",
        ];
        const got = readFeatures(file, layer, ...(isCsv ? ["-a_srs", "EPSG:4326", ...xy] : []));
        if (!isCsv) expect(layerSummary(file, layer)).toMatchObject({ geometry: "Point", count: 4, epsg: "4326" });
        got.forEach(({ properties }, at) => {
          for (const [column, value] of wantedOf(format, at))
            expect([column, String(plain(properties?.[column])).replace(/^'(?==)/, "")]).toEqual([column, value]);
        });
        expect(farthestDeg(placesOf(got as Feature[]), placesOf(source))).toBeLessThanOrEqual(TOLERANCE_DEG);
      });

      it("gives GeoParquet that its own library reads as the plan has it", async () => {
        const read = await readLayerFile(files.get("trees.parquet")!, { layer: "trees", file: "trees.parquet" });
        expect(read.fault).toBeNull();
        read.features.forEach(({ properties }, at) => {
          const members = plainAll(properties);
          for (const [column, value] of wantedOf(format, at))
            expect([column, members[column]]).toEqual([column, value]);
        });
        expect(farthestDeg(placesOf(read.features as unknown as Feature[]), placesOf(source))).toBeLessThanOrEqual(
          TOLERANCE_DEG,
        );
      });
    });

    it("keeps the kinds of columns: whole numbers, truth, days; lists, times and larger numbers as text", async () => {
      const { files } = await alsoFiles(await treesRevision(SOURCE), ["gpkg", "fgb"]);
      for (const name of ["plan.gpkg", "trees.fgb"]) {
        writeFileSync(join(folder, `kinds-${name}`), files.get(name)!);
        expect(Object.fromEntries(layerSummary(join(folder, `kinds-${name}`), "trees").fields)).toMatchObject({
          TREEID: "Integer64",
          BIG: "String",
          NAME: "String",
          DBH: "Real",
          ALIVE: "Integer(Boolean)",
          // FlatGeobuf has no days without a time.
          PLANTED: name === "plan.gpkg" ? "Date" : "DateTime",
          SEEN: "String",
          TAGS: "String",
        });
      }
    }, 60_000);
  },
);
