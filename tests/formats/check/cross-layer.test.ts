import { describe, expect, it } from "vitest";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import type { Layer } from "../../../src/core/model/terms.ts";
import { crossLayerFindings, type PlacedFile } from "../../../src/formats/check/cross-layer.ts";
import { type CoordinateSystem, WGS84 } from "../../../src/formats/crs/system.ts";

const points = (layer: Layer, ...positions: readonly (readonly [number, number])[]): PlacedFile => ({
  layer,
  file: `${layer}.geojson`,
  system: WGS84,
  features: positions.map(
    (coordinates, index): SourceFeature => ({
      layer,
      file: `${layer}.geojson`,
      index,
      ordinal: index,
      id: null,
      properties: {},
      geometry: { type: "Point", coordinates: [...coordinates] },
    }),
  ),
});

const CITY = [-89.4, 43.07] as const;
const NEARBY = [-89.39, 43.08] as const;

const codes = (...files: readonly PlacedFile[]): [string, string | null][] =>
  crossLayerFindings(files).map(({ code, file }) => [code, file]);

describe("crossLayerFindings", () => {
  it("has nothing to say of layers that fit", () => {
    expect(codes(points("trees", CITY, NEARBY), points("signs", CITY, NEARBY))).toEqual([]);
    expect(codes(points("trees", CITY))).toEqual([]);
    expect(codes(points("trees"), points("signs", CITY))).toEqual([]);
  });

  it("finds a layer that lies apart, with the distance", () => {
    const [finding, ...more] = crossLayerFindings([points("trees", CITY), points("signs", [-89.4, 44.07])]);
    // One degree of latitude is 111 km.
    expect(finding).toMatchObject({ code: "layers-apart", file: "signs.geojson", severity: "warning" });
    expect(finding!.reason).toContain("111 km");
    expect(more).toEqual([]);
  });

  it("suspects swapped axes where the exchange would make a layer fit, and changes nothing", () => {
    const signs = points("signs", [43.07, -89.4], [43.08, -89.39]);
    expect(codes(points("trees", CITY, NEARBY), signs)).toEqual([["swapped-axes-suspected", "signs.geojson"]]);
    expect(signs.features[0]!.geometry).toMatchObject({ coordinates: [43.07, -89.4] });
  });

  it("suspects the trees when it is they that were swapped", () => {
    // Munich is 11.6 E, 48.1 N; swapped it lies in the sea off Somalia, where trees could still be.
    const found = codes(points("trees", [48.1, 11.6]), points("signs", [11.6, 48.1]), points("signals", [11.6, 48.1]));
    expect(found).toEqual([["swapped-axes-suspected", "trees.geojson"]]);
  });

  it("knows that no tree grows at 89 degrees south", () => {
    expect(codes(points("trees", [43.07, -89.4]))).toEqual([["latitude-without-trees", "trees.geojson"]]);
  });

  it("counts trees outside everything else, and positions far from the rest", () => {
    const stray = points("trees", CITY, NEARBY, [-89.3, 43.07], [0, 0]);
    const found = crossLayerFindings([stray, points("signs", CITY, NEARBY)]);
    expect(found.map(({ code, reason }) => [code, reason.slice(0, 6)])).toEqual([
      ["far-from-the-rest", "1 of 4"],
      ["trees-outside-surroundings", "2 of 4"],
    ]);
  });

  it("says how far layers in different datums may be off against each other", () => {
    const inDatum = (file: PlacedFile, datum: CoordinateSystem["datum"]): PlacedFile => ({
      ...file,
      system: { ...WGS84, datum },
    });
    const trees = inDatum(points("trees", CITY), {
      name: "North American Datum 1983",
      kind: "same",
      errorM: null,
      source: null,
    });
    const [found] = crossLayerFindings([trees, points("signs", CITY)]);
    expect(found).toMatchObject({ code: "datums-mixed", severity: "warning", file: "signs.geojson" });
    expect(found!.reason).toContain("1 to 2 m");
    const old = { name: "North American Datum 1927", kind: "shifted", errorM: 7, source: "EPSG:1175" } as const;
    const [coarse] = crossLayerFindings([trees, inDatum(points("signs", CITY), old)]);
    expect(coarse!.reason).toContain("up to 7 m (EPSG:1175) and 1 to 2 m more");
    expect(crossLayerFindings([trees, inDatum(points("signs", CITY), trees.system.datum)])).toEqual([]);
  });
});
