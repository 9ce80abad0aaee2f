import type { ExpressionSpecification } from "maplibre-gl";
import { byUrgency, urgencyTone } from "../layers/expressions.ts";
import { farMarkRadius } from "../layers/far-mark-radius.ts";
import type { PlanLayer } from "../layers/plan-layer.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import { groundPx } from "./ground-px.ts";
import { FILE_SOURCES, SPRITE_ID } from "./plan-files.ts";

const source = FILE_SOURCES.trees;
const member = (name: string): ExpressionSpecification => ["get", `bough_${name}`];
const is = (name: string, value: string): ExpressionSpecification => ["==", member(name), value];
const isAsked = (name: string): ExpressionSpecification => ["!=", ["coalesce", member(name), ""], ""];

/** Marks give way to shapes from here, as on the plugin's map. */
const SHAPES_FROM_ZOOM = 15.5;
const CROWNS_FROM_ZOOM = 16.5;

/** A tree that something is wanted of: not `clear`, and more than a look at a tree without conflicts. */
const isWork: ExpressionSpecification = [
  "all",
  ["!", is("urgency", "clear")],
  ["any", ["!", is("remedy", "none")], isAsked("conflicts")],
];
const isPossible = is("certainty", "possible");

/** Higher is drawn on top: the more urgent. */
const order = byUrgency({ now: 5, "next-window": 4, "this-cycle": 3, watch: 2, clear: 1 }, "bough_urgency");

/** Crowns of `trees.geojson` as circles of their mean radius on the ground, ringed by urgency. */
export function crownFileLayers(theme: Theme): PlanLayer[] {
  const shown = (full: number): ExpressionSpecification => [
    "interpolate",
    ["linear"],
    ["zoom"],
    CROWNS_FROM_ZOOM,
    0,
    CROWNS_FROM_ZOOM + 1,
    full,
  ];
  const radius: ExpressionSpecification = ["to-number", ["coalesce", member("crown_radius_m"), 0]];
  const shared = {
    type: "circle",
    source,
    metadata: { part: "crowns" },
    minzoom: CROWNS_FROM_ZOOM,
  } as const;
  return [
    {
      ...shared,
      id: "boughline-crowns",
      paint: {
        "circle-radius": groundPx(radius),
        "circle-pitch-alignment": "map",
        "circle-color": theme.vegetation.fill,
        "circle-opacity": shown(0.5),
        "circle-stroke-color": theme.vegetation.edge,
        "circle-stroke-width": TOKENS.line.crownPx,
        "circle-stroke-opacity": shown(1),
      },
    },
    {
      ...shared,
      id: "boughline-crown-bands",
      filter: isWork,
      paint: {
        "circle-radius": groundPx(radius),
        "circle-pitch-alignment": "map",
        "circle-opacity": 0,
        "circle-stroke-color": urgencyTone(theme, "bough_urgency"),
        "circle-stroke-width": TOKENS.line.bandPx,
        "circle-stroke-opacity": shown(1),
      },
    },
  ];
}

/** All trees of `trees.geojson` as quiet dots; those that something is wanted of as dots by urgency far out, then as their marks. */
export function markFileLayers(theme: Theme): PlanLayer[] {
  const { dot } = theme.vegetation;
  const radius = (share: number): ExpressionSpecification => [
    "*",
    share,
    byUrgency(TOKENS.mark.farRadiusPx, "bough_urgency"),
  ];
  const weight = byUrgency({ now: 1.1, "next-window": 1, "this-cycle": 0.9, watch: 0.74, clear: 0.6 }, "bough_urgency");
  const sized = (size: number): ExpressionSpecification => ["*", size, weight, ["case", isPossible, 0.8, 1]];
  const isClear = is("urgency", "clear");
  return [
    {
      id: "boughline-tree-dots",
      type: "circle",
      source,
      metadata: { part: "marks" },
      filter: ["!", isWork],
      paint: {
        "circle-radius": ["interpolate", ["linear"], ["zoom"], 10, 0.5, 13, 0.8, 15, 1.4, 17, 2.4],
        "circle-color": ["step", ["zoom"], dot, 15, ["case", isClear, theme.ground, dot]],
        "circle-stroke-color": theme.quiet,
        "circle-stroke-width": ["step", ["zoom"], 0, 15, ["case", isClear, 1, 0]],
      },
    },
    {
      id: "boughline-far-marks",
      type: "circle",
      source,
      metadata: { part: "marks", trees: true },
      maxzoom: SHAPES_FROM_ZOOM,
      filter: isWork,
      layout: { "circle-sort-key": order },
      paint: {
        "circle-radius": farMarkRadius(radius),
        "circle-color": ["case", isPossible, theme.ground, urgencyTone(theme, "bough_urgency")],
        "circle-stroke-color": ["case", isPossible, urgencyTone(theme, "bough_urgency"), theme.ink],
        "circle-stroke-width": ["case", isPossible, 0.9, 0.4],
      },
    },
    {
      id: "boughline-marks",
      type: "symbol",
      source,
      metadata: { part: "marks", trees: true },
      minzoom: SHAPES_FROM_ZOOM,
      filter: isWork,
      layout: {
        "icon-image": [
          "concat",
          `${SPRITE_ID}:mark-`,
          member("remedy"),
          "-",
          member("urgency"),
          "-",
          ["case", is("remedy", "none"), "confirmed", ["coalesce", member("certainty"), "confirmed"]],
        ],
        "icon-rotate": [
          "match",
          member("remedy"),
          ["shorten", "remove-limb"],
          ["to-number", ["coalesce", member("bearing_deg"), 0]],
          0,
        ],
        "icon-rotation-alignment": "map",
        "icon-allow-overlap": true,
        "icon-ignore-placement": true,
        "icon-padding": 0,
        "symbol-sort-key": order,
        "icon-size": [
          "interpolate",
          ["linear"],
          ["zoom"],
          SHAPES_FROM_ZOOM,
          sized(0.5),
          16.5,
          sized(0.76),
          17,
          sized(0.95),
          19,
          sized(1.1),
        ],
      },
    },
  ];
}

/**
 * What is to be done with its figure beside the crown, in meters and, in a layer that is hidden until a map's maker shows it instead, in
 * feet.
 */
export function figureFileLayers(theme: Theme): PlanLayer[] {
  return [
    figureLayer(theme, "boughline-figures", "visible", 1, "m"),
    figureLayer(theme, "boughline-figures-us", "none", 1 / 0.3048, "ft"),
  ];
}

function figureLayer(
  theme: Theme,
  id: string,
  visibility: "visible" | "none",
  unitsPerM: number,
  unit: string,
): PlanLayer {
  const figure = (name: string): ExpressionSpecification => [
    "case",
    ["==", ["typeof", member(name)], "number"],
    [
      "concat",
      " ",
      [
        "number-format",
        ["*", ["to-number", member(name)], unitsPerM],
        { "min-fraction-digits": 1, "max-fraction-digits": 1 },
      ],
      ` ${unit}`,
    ],
    "",
  ];
  return {
    id,
    type: "symbol",
    source,
    metadata: { part: "labels", trees: true },
    minzoom: 18,
    filter: ["all", isWork, ["in", member("remedy"), ["literal", ["lift", "shorten", "remove-limb"]]]],
    layout: {
      visibility,
      "text-field": [
        "match",
        member("remedy"),
        "lift",
        ["concat", "lift", figure("lift_m")],
        "shorten",
        ["concat", "shorten", figure("shorten_m")],
        "remove limb",
      ],
      "text-size": TOKENS.type.mapPx,
      "text-anchor": "left",
      "text-offset": [1.1, 0],
      "text-max-width": 9,
      "symbol-sort-key": ["-", 0, order],
    },
    paint: { "text-color": theme.ink, "text-halo-color": theme.ground, "text-halo-width": 1.75 },
  };
}
