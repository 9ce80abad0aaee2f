import { gzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { toGeoJson } from "../../../src/formats/read/to-geojson.ts";
import { bytesOf, featuresOf, fixture, readAs, refusal } from "./reading.ts";

const POINT = '{"type":"Feature","properties":{"a":1},"geometry":{"type":"Point","coordinates":[-123,49]}}';
const CSV = "id,lon,lat\n1,-123,49\n";

describe("toGeoJson: GeoJSON passes through", () => {
  it.each([
    ["a.geojson", `{"type":"FeatureCollection","features":[ ${POINT} ]}\n`],
    ["a.geojsonl", `${POINT}\n${POINT}\n`],
    ["a.txt", `\u001e${POINT}\n\u001e${POINT}\n`],
    ["a.json", `\ufeff${POINT}`],
    ["a.geojson", "[1,2]"],
    ["a.geojson", ""],
    ["a.geojson", "\u00ff\u00fenonsense"],
    ["a", "   "],
  ])("%s %j", async (name, text) => {
    const bytes = bytesOf(text);
    const converted = await toGeoJson(bytes, name);
    expect(converted.bytes).toBe(bytes);
    expect([converted.format, converted.findings.length]).toEqual(["GeoJSON", 0]);
  });

  it("but for UTF-16, which is written back as UTF-8 and said", async () => {
    const units = [...`\ufeff${POINT}`].map((letter) => letter.charCodeAt(0));
    const read = await readAs("a.geojson", Uint8Array.from(units.flatMap((unit) => [unit & 255, unit >> 8])), {
      layer: "trees",
    });
    expect([read.counts.used, read.findings[0]!.code]).toEqual([1, "converted-encoding"]);
    expect(new TextDecoder().decode(read.bytes)).toBe(POINT);
  });

  it("and is refused where it is not UTF-8, as before", async () => {
    const bytes = Uint8Array.from([
      ...bytesOf('{"type":"FeatureCollection","name":"Ch'),
      0xea,
      ...bytesOf('ne","features":[]}'),
    ]);
    expect((await readAs("a.geojson", bytes)).fault?.code).toBe("bad-utf8");
  });
});

describe("toGeoJson: what a file is", () => {
  it("goes by content before the name", async () => {
    for (const [name, content, format] of [
      ["trees.json", CSV, "GeoJSON"],
      ["trees.csv", POINT, "GeoJSON"],
      ["trees.dat", CSV, "CSV"],
      ["trees", fixture("areas.gpkg"), "GeoPackage"],
      ["trees.csv", fixture("areas.fgb"), "FlatGeobuf"],
      ["trees.geojson", fixture("areas.zip"), "Shapefile"],
    ] as const) {
      const bytes = typeof content === "string" ? bytesOf(content) : content;
      expect((await toGeoJson(bytes, name)).format, name).toBe(format);
    }
  });

  it.each([
    ["a.csv", "<!DOCTYPE html><html></html>", "format-not-read"],
    ["a.kml", '<?xml version="1.0"?><kml/>', "format-not-read"],
    ["a.pdf", "%PDF-1.7", "format-not-read"],
    ["a.shp", "\u0000\u0000'\n", "format-not-read"],
    ["a.dbf", "\u0003~\u0001\u0001", "format-not-read"],
    ["a.gpkg", CSV, "wrong-content"],
    ["a.parquet", "PAR2", "wrong-content"],
    ["a.zip", "PK nothing", "wrong-content"],
  ])("%s %j is refused", async (name, text, code) => expect(await refusal(name, bytesOf(text))).toBe(code));

  it("takes gzip and zip off, twice at most", async () => {
    const csv = bytesOf(CSV);
    const gzip = gzipSync(csv);
    const unpacked = await toGeoJson(gzip, "trees.csv.gz");
    expect([unpacked.format, unpacked.findings[0]!.reason]).toEqual([
      "CSV",
      "trees.csv was taken out of the gzip file.",
    ]);
    const zipped = zipSync({
      "folder/trees.csv.gz": gzip,
      "readme.md": bytesOf("x"),
      "__MACOSX/._trees.csv": bytesOf("x"),
    });
    expect(featuresOf(await toGeoJson(zipped, "trees.zip"))).toHaveLength(1);
    const geojson = await toGeoJson(gzipSync(bytesOf(POINT)), "trees.geojson.gz");
    expect([geojson.format, new TextDecoder().decode(geojson.bytes)]).toEqual(["GeoJSON", POINT]);
    expect(await refusal("a.gz", gzipSync(gzipSync(gzip)))).toBe("nested-archives");
    for (const cut of [1, 8, 9, 20]) expect(await refusal("a.csv.gz", gzip.slice(0, -cut))).toBe("damaged");
    const members = Uint8Array.from([...gzip, ...gzipSync(bytesOf("2,-123,49\n"))]);
    expect(featuresOf(await toGeoJson(members, "trees.csv.gz"))).toHaveLength(2);
  });

  it("asks which of several files in a zip, and takes the one called like the layer", async () => {
    const zipped = zipSync({ "trees.csv": bytesOf(CSV), "roads.csv": bytesOf(CSV) });
    expect(await refusal("a.zip", zipped)).toBe("several-tables");
    expect(await refusal("a.zip", zipped, { table: "roads.csv" })).toBeNull();
    const shapes = zipSync({ "a/Trees.shp": new Uint8Array(), "a/roads.shp": new Uint8Array() });
    expect(await refusal("a.zip", shapes)).toBe("several-tables");
    expect(await refusal("a.zip", shapes, { layer: "trees" })).toBe("damaged");
  });

  it.each([
    [{ "x.gdb/a00000001.gdbtable": bytesOf("x") }, "file geodatabase"],
    [{ "[Content_Types].xml": bytesOf("x"), "xl/workbook.xml": bytesOf("x") }, "Excel"],
    [{ "doc.kml": bytesOf("x") }, "KMZ"],
    [{ "a.tif": bytesOf("x") }, "no layer"],
  ])("says what to do with a zip of %j", async (files, words) => {
    const read = await readAs("a.zip", zipSync(files as Record<string, Uint8Array>));
    expect(read.fault?.reason).toContain(words);
  });
});

describe("toGeoJson: limits, both sides", () => {
  it.each([
    ["fileBytes", { fileBytes: CSV.length }, { fileBytes: CSV.length - 1 }, CSV],
    ["rows", { rows: 2 }, { rows: 1 }, CSV],
    ["columns", { columns: 3 }, { columns: 2 }, CSV],
    ["vertices", { vertices: 1 }, { vertices: 0 }, CSV],
  ])("%s", async (_, enough, tooLow, text) => {
    // A file's own GeoJSON may be longer than its CSV.
    expect(
      await refusal("a.csv", bytesOf(text), {
        limits: { ...enough, ...("fileBytes" in enough ? { fileBytes: 500 } : {}) },
      }),
    ).toBeNull();
    expect(await refusal("a.csv", bytesOf(text), { limits: tooLow })).toBe("too-large");
  });

  it("textLength: the row is set aside, its text kept", async () => {
    const text = `id,lon,lat,note\n1,-123,49,${"x".repeat(10)}\n2,-123,49,${"x".repeat(11)}\n`;
    const converted = await toGeoJson(bytesOf(text), "a.csv", { limits: { textLength: 10 } });
    expect([...converted.rowFaults].map(([row, fault]) => [row, fault.code])).toEqual([[1, "text-too-long"]]);
    expect(featuresOf(converted)[1]).toMatchObject({ geometry: null, properties: { note: "x".repeat(11) } });
  });

  it("bytes unpacked, counted as they are made", async () => {
    const bomb = gzipSync(new Uint8Array(1_000_000));
    expect(await refusal("a.csv.gz", bomb, { limits: { unzippedBytes: 1_000_000 } })).toBe("no-position");
    expect(await refusal("a.csv.gz", bomb, { limits: { unzippedBytes: 999_999 } })).toBe("too-large");
    expect(await refusal("a.csv.gz", bomb, { limits: { ratioFreeBytes: 500_000 } })).toBe("suspicious-zip");
    const zipped = zipSync({ "a.shp": new Uint8Array(600_000), "a.dbf": new Uint8Array(600_000) });
    expect(await refusal("a.zip", zipped, { limits: { unzippedBytes: 1_000_000 } })).toBe("too-large");
    expect(await refusal("a.zip", zipped, { limits: { zipEntries: 1 } })).toBe("too-large");
  });
});
