import { describe, expect, test } from "vitest";
import { type FirstLook, firstLook, guessLayer } from "../../../src/app/intake/guess-layer.ts";

const NOTHING: FirstLook = { points: 0, lines: 0, polygons: 0, names: new Set() };
const look = (part: Partial<Omit<FirstLook, "names">>, ...names: string[]): FirstLook => ({
  ...NOTHING,
  ...part,
  names: new Set(names),
});

describe("guessLayer", () => {
  test.each([
    ["trees.geojson", "trees"],
    ["Street_Trees_2026.geojson", "trees"],
    ["tree-inventory.json", "trees"],
    ["Bldg_Footprints.geojson", "buildings"],
    ["street centerlines.geojson", "roads"],
    ["bike_lanes.geojson", "paths"],
    ["Sidewalks.geojson", "paths"],
    ["road_signs.geojson", "signs"],
    ["TrafficSignals.geojson", "signals"],
    ["overhead-conductors.geojson", "conductors"],
    ["power lines.json", "conductors"],
  ])("%s is %s by its name", (name, layer) => {
    expect(guessLayer(name, NOTHING)).toEqual({ layer, because: "its name" });
  });

  test("a name that the geometry contradicts does not count", () => {
    expect(guessLayer("street_lights.geojson", look({ points: 9 }, "wattage")).layer).toBeNull();
    expect(guessLayer("buildings.geojson", look({ points: 9 }, "species", "dbh"))).toEqual({
      layer: "trees",
      because: "what it holds",
    });
  });

  test.each([
    [look({ points: 3 }, "species", "dbh"), "trees"],
    [look({ lines: 3 }, "lanes", "maxspeed"), "roads"],
    [look({ lines: 3 }, "voltage", "span"), "conductors"],
    [look({ polygons: 3 }, "building:levels"), "buildings"],
    [look({ points: 3 }, "facing"), "signs"],
  ])("a name that says nothing leaves it to geometry and columns", (seen, layer) => {
    expect(guessLayer("export (3).json", seen)).toEqual({ layer, because: "what it holds" });
  });

  test("nothing known is no layer", () => {
    expect(guessLayer("package.json", look({}, "species"))).toEqual({ layer: null, because: null });
  });
});

describe("firstLook", () => {
  test("counts geometry types and collects member names, also of a text cut off in the middle", () => {
    const seen = firstLook(
      '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"DBH":3},"geometry":{"type": "Point","coordinates":[1,2]}},{"type":"Feature","geometry":{"type":"MultiPolygon","coo',
    );
    expect(seen).toMatchObject({ points: 1, lines: 0, polygons: 1 });
    expect(seen.names.has("dbh")).toBe(true);
  });

  test("stays quick on text made to be slow", () => {
    const start = performance.now();
    firstLook(`"type"${" ".repeat(100_000)}:${'"'.repeat(20_000)}${'"a'.repeat(20_000)}`);
    // Linear work on 160 kB takes milliseconds; a second would mean it is not linear.
    expect(performance.now() - start).toBeLessThan(1000);
  });
});
