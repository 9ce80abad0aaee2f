import {
  createExpression,
  featureFilter,
  type LayerSpecification,
  latest,
  validateStyleMin,
} from "@maplibre/maplibre-gl-style-spec";
import type { Feature } from "geojson";
import { describe, expect, test } from "vitest";
import { CERTAINTIES, REMEDIES, URGENCIES, ZONE_STATES } from "../../../src/core/model/terms.ts";
import { sprite } from "../../../src/map/portable/sprite.ts";
import { styleFragment } from "../../../src/map/portable/style-fragment.ts";
import { TOKENS } from "../../../src/map/tokens.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";

const THEMES = ["light", "dark", "print"] as const;
const opened = smallOpenedPlan();
const { layers } = styleFragment("light");
const layer = (id: string): LayerSpecification => layers.find((one) => one.id === id) as LayerSpecification;
const images = new Set(Object.keys(JSON.parse(sprite("light", 2).index)).map((name) => `boughline:${name}`));

type Styled = { readonly layout?: Record<string, unknown>; readonly paint?: Record<string, unknown> };

/** The value of a layer's property for a feature at a zoom, by the specification's own evaluator. */
function evaluated(id: string, group: "layout" | "paint", name: string, zoom: number, feature: Feature): unknown {
  const { type } = layer(id);
  const spec = (latest as unknown as Record<string, Record<string, never>>)[`${group}_${type}`]![name]!;
  const made = createExpression((layer(id) as Styled)[group]![name], spec);
  if (made.result === "error") throw new Error(made.value.map(({ message }) => message).join());
  const value = made.value.evaluate({ zoom }, { ...feature, type: "Point" } as never, {}, undefined, [...images]);
  return value;
}

const shows = (id: string, feature: Feature): boolean =>
  featureFilter((layer(id) as { filter?: never }).filter, `layers.${id}.filter`).filter({ zoom: 18 }, {
    type: 1,
    properties: feature.properties ?? {},
  } as never);

const tree = (properties: Record<string, unknown>): Feature => ({
  type: "Feature",
  properties,
  geometry: { type: "Point", coordinates: [0, 0] },
});

describe.each(THEMES)("the %s fragment", (theme) => {
  test("is a valid style by the specification's own validator", () => {
    expect(validateStyleMin(styleFragment(theme))).toEqual([]);
  });

  test("names files of a plan and the sprite of its theme", () => {
    const { sources, sprite: named } = styleFragment(theme);
    expect(Object.values(sources).map((source) => (source as { data: unknown }).data)).toEqual([
      "surroundings.geojson",
      "sight.geojson",
      "zones.geojson",
      "conflicts.geojson",
      "trees.geojson",
    ]);
    expect(named).toEqual([{ id: "boughline", url: `sprite-${theme}` }]);
  });

  test("has the layers of the light one, and colors of its own theme only", () => {
    expect(styleFragment(theme).layers.map(({ id }) => id)).toEqual(layers.map(({ id }) => id));
    const used = new Set(JSON.stringify(styleFragment(theme).layers).match(/#[0-9a-f]{6}/g));
    const own = new Set(JSON.stringify(TOKENS.themes[theme]).match(/#[0-9a-f]{6}/g));
    expect([...used].filter((color) => !own.has(color))).toEqual([]);
  });
});

describe("marks", () => {
  test("have an image in the sprite for every remedy, urgency and certainty that a tree can have", () => {
    let asked = 0;
    for (const bough_remedy of REMEDIES)
      for (const bough_urgency of URGENCIES)
        for (const bough_certainty of [...CERTAINTIES, null]) {
          const one = tree({ bough_remedy, bough_urgency, bough_certainty, bough_conflicts: "roadway" });
          if (!shows("boughline-marks", one)) continue;
          expect(images).toContain(String(evaluated("boughline-marks", "layout", "icon-image", 18, one)));
          asked += 1;
        }
    expect(asked).toBe(REMEDIES.length * 4 * 4);
  });

  test("turn to the conflict where the shape shows a side, and stand upright where it does not", () => {
    const turned = (bough_remedy: string) =>
      evaluated("boughline-marks", "layout", "icon-rotate", 18, tree({ bough_remedy, bough_bearing_deg: 133.5 }));
    expect([turned("shorten"), turned("remove-limb")]).toEqual([133.5, 133.5]);
    expect([turned("lift"), turned("refer"), turned("remedial")]).toEqual([0, 0, 0]);
  });

  test("leave quiet dots to trees that nothing is wanted of", () => {
    const quiet = tree({ bough_remedy: "none", bough_urgency: "watch", bough_conflicts: "" });
    const watched = tree({ bough_remedy: "none", bough_urgency: "watch", bough_conflicts: "roadway" });
    expect([shows("boughline-marks", quiet), shows("boughline-tree-dots", quiet)]).toEqual([false, true]);
    expect([shows("boughline-marks", watched), shows("boughline-tree-dots", watched)]).toEqual([true, false]);
  });

  test("every tree of a plan is a dot or a mark", () => {
    for (const one of opened.trees.features)
      expect(Number(shows("boughline-marks", one)) + Number(shows("boughline-tree-dots", one))).toBe(1);
  });
});

test("the figure is written in meters, and in feet in the layer that starts hidden", () => {
  const one = tree({ bough_remedy: "lift", bough_lift_m: 1.2192 });
  const text = (id: string) => String(evaluated(id, "layout", "text-field", 19, one));
  expect(text("boughline-figures")).toBe("lift 1.2 m");
  // 1.2192 m are four international feet of 0.3048 m.
  expect(text("boughline-figures-us")).toBe("lift 4.0 ft");
  expect((layer("boughline-figures-us") as Styled).layout!.visibility).toBe("none");
  expect(text("boughline-figures").includes("null")).toBe(false);
  const bare = tree({ bough_remedy: "shorten", bough_shorten_m: null });
  expect(String(evaluated("boughline-figures", "layout", "text-field", 19, bare))).toBe("shorten");
});

test("every zone state has a pattern in the sprite", () => {
  for (const state of ZONE_STATES)
    expect(images).toContain(String(evaluated("boughline-zones", "paint", "fill-pattern", 18, tree({ state }))));
});
