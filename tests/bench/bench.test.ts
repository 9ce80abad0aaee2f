import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Layer } from "../../src/core/model/terms.ts";
import { readGeoJson } from "../../src/formats/geojson/read-geojson.ts";
import { figuresOf, markdownTable } from "./bench-table.ts";
import { joinByGeos } from "./join-by-geos.ts";
import { JOIN_M, joinByOwnIndex } from "./join-by-own-index.ts";
import { type CityFiles, makeCity } from "./make-city.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(path.join(os.tmpdir(), "boughline-bench-test-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const filesIn = (name: string): CityFiles => ({
  trees: path.join(folder, `${name}-trees.geojson`),
  buildings: path.join(folder, `${name}-buildings.geojson`),
  roads: path.join(folder, `${name}-roads.geojson`),
});

describe("a bench city", () => {
  const options = { trees: 100, decimals: 7, seed: 1 };

  it("has as many buildings as trees, and the streets about two by two blocks of forty", async () => {
    // 100 trees need three blocks; the grid is square, so 2 x 2 blocks with 3 streets of 2 blocks each way.
    expect(await makeCity(filesIn("counted"), options)).toEqual({ trees: 100, buildings: 100, roads: 12 });
  });

  it("is the same for the same seed and another for another", async () => {
    for (const [name, seed] of [
      ["one", 1],
      ["again", 1],
      ["other", 2],
    ] as const) {
      await makeCity(filesIn(name), { ...options, seed });
    }
    const text = (name: string): string => readFileSync(filesIn(name).trees, "utf8");
    expect(text("again")).toBe(text("one"));
    expect(text("other")).not.toBe(text("one"));
  });

  it("is read without a finding", async () => {
    const files = filesIn("read");
    await makeCity(files, options);
    for (const [layer, file] of Object.entries(files) as [Layer, string][]) {
      expect(readGeoJson(readFileSync(file), { layer, file }).findings).toEqual([]);
    }
  });
});

describe("the joins", () => {
  // A square of 20 m, and trees 5 m east of it, in its middle, and farther than the joins look.
  const [lonDeg, latDeg] = [-139.5, 44.25];
  const [perMeterLon, perMeterLat] = [1 / 79_868.6, 1 / 111_117.1];
  const at = (xM: number, yM: number): readonly number[] => [lonDeg + xM * perMeterLon, latDeg + yM * perMeterLat];
  const square = [at(0, 0), at(20, 0), at(20, 20), at(0, 20), at(0, 0)];
  const join = { trees: [at(25, 10), at(10, 10), at(20 + JOIN_M + 1, 10)], buildings: [square] };

  it("find the one distance there is", () => {
    // Meters in a degree are rounded to a tenth of a meter, a part in a million.
    expect(joinByOwnIndex(join)).toBeCloseTo(5, 4);
  });

  it("agree", async () => {
    const geos = await joinByGeos(join);
    // Doubles of five million meters resolve a nanometer.
    expect(geos.run()).toBeCloseTo(joinByOwnIndex(join), 6);
  });
});

describe("the table", () => {
  const usage = (userMs: number, wallMs: number) => ({ wallMs, userMs, systemMs: 100, residentMB: 64.4 });

  it("gives the least and the middle of the runs", () => {
    const runs = [usage(3000, 9000), usage(1000, 5000), usage(2000, 4000)];
    expect(figuresOf({ name: "a", runs, times: 1, checksum: "c" })).toEqual({
      name: "a",
      runs: 3,
      wallMinMs: 4000,
      wallMedianMs: 5000,
      userMinMs: 1000,
      userMedianMs: 2000,
      systemMs: 100,
      residentMB: 64,
      isExtrapolated: false,
      checksum: "c",
    });
  });

  it("compares least user times with the row that is named, and says what was extrapolated", () => {
    const rows = [
      figuresOf({ name: "floor", runs: [usage(1000, 1000)], times: 1, checksum: "" }),
      figuresOf({ name: "part", runs: [usage(50, 60)], times: 100, checksum: "" }),
    ];
    const lines = markdownTable(rows, "floor").split("\n");
    expect(lines[2]).toMatch(/^\| floor .* 1\.00 \|$/);
    expect(lines[3]).toMatch(/^\| part, extrapolated \|.* 5\.00 \|.* 5\.00 \|$/);
  });
});
