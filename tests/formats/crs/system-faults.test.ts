import { describe, expect, it } from "vitest";
import { readGeoJsonFile } from "../../../src/formats/geojson/read-geojson-file.ts";
import { bytesOf, collection, point } from "../geojson/reading.ts";

const read = async (code: number, ...positions: readonly (readonly [number, number])[]) =>
  readGeoJsonFile(bytesOf(collection(...positions.map(([x, y]) => point(x, y)))), {
    layer: "trees",
    file: "trees.geojson",
    crs: `EPSG:${code}`,
  });

describe("what a file's coordinate system brings with it", () => {
  it("is said with counts for a datum taken for WGS 84", async () => {
    const { findings, counts } = await read(2263, [1_000_000, 200_000], [1_001_000, 200_000]);
    expect(findings.map(({ code, severity }) => [code, severity])).toEqual([
      ["reprojected", "info"],
      ["datum-not-shifted", "info"],
    ]);
    expect(findings[0]!.reason).toContain("2 positions of 2 features");
    expect(findings[0]!.reason).toContain("NAD83 / New York Long Island (ftUS) (EPSG:2263)");
    expect(counts.used).toBe(2);
  });

  it("is a warning where a shift is coarse, with its size and source", async () => {
    const { findings } = await read(32040, [2_000_000, 600_000]);
    const shift = findings.find(({ code }) => code === "datum-shifted");
    expect(shift?.severity).toBe("warning");
    expect(shift?.reason).toContain("EPSG:1175");
    expect(shift?.reason).toContain("up to 7 m");
  });

  it("counts features outside the area the system is made for", async () => {
    // Meters given for feet: a third of the way along, far to the southwest of Long Island.
    const { findings } = await read(2263, [304_800, 60_960], [1_000_000, 200_000]);
    expect(findings.find(({ code }) => code === "outside-area-of-use")?.reason).toMatch(/^1 of 2 features/);
  });

  it("finds a system named in the file itself", async () => {
    const crs = '{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::2263"}}';
    const text = collection(point(1_000_000, 200_000)).replace("{", `{"crs":${crs},`);
    const { fault, reprojectedFrom } = await readGeoJsonFile(bytesOf(text), { layer: "trees", file: "a.geojson" });
    expect([fault, reprojectedFrom]).toEqual([null, "EPSG:2263"]);
  });
});
