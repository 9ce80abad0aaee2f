import { readFileSync } from "node:fs";
import type { FeatureCollection, Point } from "geojson";
import { describe, expect, it } from "vitest";
import { parseColumnMap } from "../../../src/core/inventory/column-map-schema.ts";
import { readTrees } from "../../../src/core/inventory/read-trees.ts";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { OPTIONS } from "./tree-features.ts";

const FOLDER = "tests/fixtures/ubc/";
const collection = JSON.parse(readFileSync(`${FOLDER}trees.geojson`, "utf8")) as FeatureCollection<Point>;
const parsed = parseColumnMap(JSON.parse(readFileSync(`${FOLDER}columns.json`, "utf8")));
if ("faults" in parsed) throw new Error(parsed.faults.join("; "));
const features = collection.features.map(
  (feature, index): SourceFeature<Point> => ({
    layer: "trees",
    file: "trees.geojson",
    index,
    ordinal: index,
    id: null,
    properties: feature.properties ?? {},
    geometry: feature.geometry,
  }),
);
const { trees, setAside } = readTrees(features, parsed.columns, usCommon(), OPTIONS);

/** Widths outside 0.1 to 50 m are set aside; one tree here has 60.4 m. */
const isPlausibleWidth = (widthM: unknown): widthM is number =>
  typeof widthM === "number" && widthM >= 0.1 && widthM <= 50;

describe("a real neighborhood", () => {
  it("ends with every feature used or set aside", () => {
    expect(trees.length + setAside.length).toBe(619);
    const ordinals = [...trees.map((tree) => tree.ordinal), ...setAside.map((one) => one.ordinal)].sort(
      (a, b) => a - b,
    );
    expect(ordinals).toEqual(features.map((feature) => feature.ordinal));
  });

  it("keeps every plausible measured size as it stands in the file", () => {
    let kept = 0;
    for (const tree of trees) {
      const { THEIGHT, HEIGHT_LIVEBASE, CROWNWIDTH1, CROWNWIDTH2 } = features[tree.ordinal]!.properties;
      if (tree.height.basis === "measured") expect(tree.height.valueM).toBe(THEIGHT);
      if (tree.crownBase.basis === "measured") expect(tree.crownBase.valueM).toBe(HEIGHT_LIVEBASE);
      if (tree.radius.basis === "measured" && isPlausibleWidth(CROWNWIDTH1) && isPlausibleWidth(CROWNWIDTH2)) {
        expect(tree.radius.valueM).toBeCloseTo((CROWNWIDTH1 + CROWNWIDTH2) / 4, 12);
      }
      if ([tree.height, tree.crownBase, tree.radius].every((size) => size.basis === "measured")) kept += 1;
    }
    // 511 complete live trees by the README; a few are implausible, and a tree needs no taxon to be measured.
    expect(kept).toBeGreaterThan(480);
  });

  it("knows the species or genus of nearly all named trees", () => {
    const named = trees.filter((tree) => tree.species !== null);
    const known = named.filter((tree) => tree.traits.matchedBy === "species" || tree.traits.matchedBy === "genus");
    expect(known.length / named.length).toBeGreaterThan(0.97);
  });
});
