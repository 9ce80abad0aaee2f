import { gzipSync } from "fflate";
import { parquetWriteBuffer } from "hyparquet-writer";
import { describe, expect, it } from "vitest";
import { readAs, refusal } from "./reading.ts";

/** A point in well-known binary. */
function wkbPoint(x: number, y: number): Uint8Array {
  const view = new DataView(new ArrayBuffer(21));
  view.setUint8(0, 1);
  view.setUint32(1, 1, true);
  view.setFloat64(5, x, true);
  view.setFloat64(13, y, true);
  return new Uint8Array(view.buffer);
}

type WriteOptions = Parameters<typeof parquetWriteBuffer>[0];

/** A GeoParquet file of two points and a row without one, with whatever a test adds. */
function parquet(crs: unknown, more: WriteOptions["columnData"] = [], options: Partial<WriteOptions> = {}): Uint8Array {
  const column = { encoding: "WKB", geometry_types: ["Point"], ...(crs === undefined ? {} : { crs }) };
  const geo = { version: "1.1.0", primary_column: "geom", columns: { geom: column } };
  return new Uint8Array(
    parquetWriteBuffer({
      columnData: [
        { name: "id", data: [9007199254740993n, 2n, 3n], type: "INT64" },
        { name: "geom", data: [wkbPoint(-123, 49), wkbPoint(-122.5, 49.5), null], type: "BYTE_ARRAY" },
        ...more,
      ],
      kvMetadata: [{ key: "geo", value: JSON.stringify(geo) }],
      ...options,
    }),
  );
}

const read = (bytes: Uint8Array) => readAs("trees.parquet", bytes, { layer: "trees" });

describe("GeoParquet", () => {
  it("reads WKB points, keeps long whole numbers, and sets a row without geometry aside", async () => {
    const { features, setAside, findings } = await read(parquet(undefined));
    expect(features.map(({ properties, geometry }) => [properties, geometry])).toEqual([
      [{ id: "9007199254740993" }, { type: "Point", coordinates: [-123, 49] }],
      [{ id: 2 }, { type: "Point", coordinates: [-122.5, 49.5] }],
    ]);
    expect(setAside.map(({ ordinal, finding }) => [ordinal, finding.code])).toEqual([[2, "no-geometry"]]);
    expect(findings.map(({ reason }) => reason)).toEqual(["Read as GeoParquet: 3 rows, 1 columns."]);
  });

  it("keeps texts, dates, times, fractions and lists as they are", async () => {
    const more = [
      { name: "name", data: ["chêne", null, ""], type: "STRING" },
      { name: "planted", data: [new Date("2019-04-30"), null, null], type: "TIMESTAMP" },
      { name: "ok", data: [true, false, null], type: "BOOLEAN" },
      { name: "h", data: [0.1, 1e300, null], type: "DOUBLE" },
      { name: "f", data: [0.1, 16777216, null], type: "FLOAT" },
      { name: "raw", data: [new Uint8Array([0xff, 0x00]), new Uint8Array([0x61]), null], type: "BYTE_ARRAY" },
      { name: "j", data: [{ a: [1, 2] }, null, null], type: "JSON" },
    ] as unknown as WriteOptions["columnData"];
    const { features } = await read(parquet(undefined, more));
    expect(features.map(({ properties }) => properties)).toEqual([
      // Bytes that are no text become base64: FF 00 is "/wA=" (RFC 4648).
      {
        id: "9007199254740993",
        name: "chêne",
        planted: "2019-04-30T00:00:00Z",
        ok: true,
        h: 0.1,
        f: 0.1,
        raw: "/wA=",
        j: { a: [1, 2] },
      },
      { id: 2, name: null, planted: null, ok: false, h: 1e300, f: 16777216, raw: "a", j: null },
    ]);
  });

  it.each([
    [{ id: { authority: "EPSG", code: 4326 } }, null],
    [{ id: { authority: "OGC", code: "CRS84" } }, null],
    [{ id: { authority: "EPSG", code: 32610 } }, "EPSG:32610"],
  ])("takes the system from PROJJSON %j", async (crs, from) => {
    const result = await read(parquet(crs));
    if (from === null) expect([result.fault, result.reprojectedFrom]).toEqual([null, null]);
    // Degrees in a file of meters are set aside one by one; the system is what counts here.
    else expect(result.setAside[0]!.finding.reason).toContain(from);
  });

  it("says that an unknown system was taken for longitude and latitude", async () => {
    const { findings } = await read(parquet(null));
    expect(findings.map(({ code }) => code)).toEqual(["format-read", "no-crs"]);
  });

  it("reads pages packed with gzip, and refuses other packings by name", async () => {
    const gzip = parquet(undefined, [], {
      codec: "GZIP",
      compressors: { GZIP: (bytes: Uint8Array) => gzipSync(bytes) },
    } as never);
    expect((await read(gzip)).counts.used).toBe(2);
    const zstd = parquet(undefined, [], {
      codec: "ZSTD",
      compressors: { ZSTD: (bytes: Uint8Array) => bytes },
    } as never);
    expect((await read(zstd)).fault?.reason).toBe("The Parquet file is packed with ZSTD, which is not read.");
  });

  it("refuses a file without geometry, and one cut short", async () => {
    const plain = new Uint8Array(parquetWriteBuffer({ columnData: [{ name: "id", data: [1, 2], type: "INT32" }] }));
    expect(await refusal("a.parquet", plain)).toBe("no-position");
    const whole = parquet(undefined);
    expect(await refusal("a.parquet", whole.slice(0, -9))).toBe("damaged");
    expect(await refusal("a.parquet", whole.slice(0, 4))).toBe("damaged");
  });

  it("refuses more rows than the limit", async () => {
    expect(await refusal("a.parquet", parquet(undefined), { limits: { rows: 3 } })).toBeNull();
    expect(await refusal("a.parquet", parquet(undefined), { limits: { rows: 2 } })).toBe("too-large");
  });
});
