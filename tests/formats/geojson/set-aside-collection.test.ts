import { describe, expect, it } from "vitest";
import { setAsideCollection } from "../../../src/formats/geojson/set-aside-collection.ts";
import { collection, feature, point, readText, textOf } from "./reading.ts";

describe("setAsideCollection", () => {
  it("writes original bytes, of the reader's set-asides and of a later stage's, in file order", () => {
    const noPlace = feature(null, '{ "a": 1.50 }');
    const read = readText(collection(point(1, 2, '{ "b": 2e0 }'), noPlace, point(3, 4)), { firstOrdinal: 5 });
    const later = { ...read.setAside[0]!, ordinal: 5 };
    expect(textOf(setAsideCollection([read], [...read.setAside, later]))).toBe(
      `{"type":"FeatureCollection","features":[\n${point(1, 2, '{ "b": 2e0 }')},\n${noPlace}\n]}\n`,
    );
  });

  it("wraps what is no feature, so that the file stays GeoJSON", () => {
    const read = readText(collection("null", '{"type": "Point"}', "[1, 2]"));
    expect(JSON.parse(textOf(setAsideCollection([read], read.setAside))).features).toEqual(
      [null, { type: "Point" }, [1, 2]].map((original) => ({
        type: "Feature",
        geometry: null,
        properties: { bough_original: original },
      })),
    );
  });

  it("tells layers apart", () => {
    const trees = readText(collection(point(1, 2)), { layer: "trees" });
    const signs = readText(collection(feature(null)), { layer: "signs" });
    const written = JSON.parse(textOf(setAsideCollection([trees, signs], signs.setAside)));
    expect(written.features).toEqual([JSON.parse(feature(null))]);
  });

  it("writes an empty collection for nothing", () => {
    expect(JSON.parse(textOf(setAsideCollection([], [])))).toEqual({ type: "FeatureCollection", features: [] });
  });
});
