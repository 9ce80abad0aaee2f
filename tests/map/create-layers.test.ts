import { validateStyleMin } from "@maplibre/maplibre-gl-style-spec";
import { expect, test } from "vitest";
import { createLayers } from "../../src/map/create-layers.ts";
import { PREFIX } from "../../src/map/ids.ts";
import { smallOpenedPlan } from "./small-opened-plan.ts";

const opened = smallOpenedPlan();

test("layers name only sources that exist, once each, with the prefix", () => {
  const { sources, layers } = createLayers(opened);
  const ids = layers.map((layer) => layer.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const layer of layers) {
    expect(layer.id.startsWith(PREFIX)).toBe(true);
    if ("source" in layer) expect(Object.keys(sources)).toContain(layer.source);
  }
});

test.each(["dark", "print"] as const)("the %s theme has the layers of the light one in the same order", (theme) => {
  const ids = (one: "light" | "dark" | "print") => createLayers(null, { theme: one }).layers.map((layer) => layer.id);
  expect(ids(theme)).toEqual(ids("light"));
});

test.each(["light", "dark", "print"] as const)(
  "the %s layers are a valid style by the specification's own validator",
  (theme) => {
    const { sources, layers } = createLayers(opened, { theme });
    expect(validateStyleMin({ version: 8, sources: { ...sources }, layers: [...layers] })).toEqual([]);
  },
);

test("every image that a tree or zone asks for is there", () => {
  const { sources, images } = createLayers(opened);
  const known = new Set(images.map((image) => image.id));
  const asked = Object.values(sources).flatMap((source) =>
    (source.data as GeoJSON.FeatureCollection).features.flatMap(({ properties }) =>
      [properties?.image, properties?.farImage, properties?.pattern].filter((id) => typeof id === "string"),
    ),
  );
  expect(asked.length).toBeGreaterThan(60);
  for (const id of asked) expect(known).toContain(id);
});

test("parts can be left out", () => {
  const { layers } = createLayers(opened, { parts: ["marks"] });
  expect(layers.map((layer) => layer.id)).toEqual([
    "boughline-tree-dots",
    "boughline-tree-rings",
    "boughline-far-marks",
    "boughline-marks",
  ]);
});

test("marks are drawn above crowns, crowns above zones, zones above the ground", () => {
  const ids = createLayers(opened).layers.map((layer) => layer.id);
  const places = ["boughline-ground", "boughline-zones", "boughline-crowns", "boughline-marks"].map((id) =>
    ids.indexOf(id),
  );
  expect(places).toEqual([...places].sort((a, b) => a - b));
  expect(places[0]).toBe(0);
});
