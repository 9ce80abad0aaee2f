import type { ExpressionSpecification } from "maplibre-gl";
import { SOURCES } from "../ids.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import {
  appear,
  byState,
  byStateFadingOut,
  byUrgency,
  disappear,
  fadeIn,
  fadeOut,
  urgencyTone,
} from "./expressions.ts";
import { farMarkRadius } from "./far-mark-radius.ts";
import type { PlanLayer } from "./plan-layer.ts";

/** Zoom below which no crown is wide enough to be drawn at true size. */
export const CROWNS_FROM_ZOOM = 15;
/** Marks are plain dots, larger the more urgent, up to here, where there is room for their shapes. */
const SHAPES_FROM_ZOOM = 15.5;
/** Zooms that a mark stays on its crown after the crown has begun to be drawn. */
const MARK_STAYS = 1;
const isPart = (part: "crown" | "trunk"): ExpressionSpecification => ["==", ["get", "part"], part];
const isClear: ExpressionSpecification = ["==", ["get", "urgency"], "clear"];
const isPossible: ExpressionSpecification = ["==", ["get", "certainty"], "possible"];
const isWork: ExpressionSpecification = ["!", ["get", "quiet"]];

/** Of a tile only what will be drawn within its zoom: a filter sees whole zooms. */
const isDrawnSoon: ExpressionSpecification = ["<=", ["get", "shows"], ["+", ["zoom"], 1]];

/** Crowns and trunks at true size and the parts of them that encroach; they fade in as the marks fade out. */
export function crownLayers(theme: Theme): PlanLayer[] {
  const { vegetation, ink } = theme;
  return [
    {
      id: "boughline-crowns",
      type: "fill",
      source: SOURCES.crowns,
      metadata: { part: "crowns" },
      minzoom: CROWNS_FROM_ZOOM,
      filter: ["all", isPart("crown"), isDrawnSoon],
      paint: { "fill-color": vegetation.fill, "fill-antialias": false, "fill-opacity": fadeIn(0, 0.5) },
    },
    {
      id: "boughline-encroachments",
      type: "fill",
      source: SOURCES.encroachments,
      metadata: { part: "crowns", trees: true },
      minzoom: CROWNS_FROM_ZOOM,
      filter: ["all", ["!=", ["get", "certainty"], "possible"], isDrawnSoon],
      paint: { "fill-color": urgencyTone(theme), "fill-opacity": appear(MARK_STAYS) },
    },
    {
      id: "boughline-encroachment-edges",
      type: "line",
      source: SOURCES.encroachments,
      metadata: { part: "crowns", trees: true },
      minzoom: CROWNS_FROM_ZOOM,
      filter: isDrawnSoon,
      layout: { "line-join": "round" },
      paint: { "line-color": urgencyTone(theme), "line-width": 1.25, "line-opacity": appear(MARK_STAYS) },
    },
    {
      id: "boughline-crown-bands",
      type: "line",
      source: SOURCES.crowns,
      metadata: { part: "crowns", trees: true },
      minzoom: CROWNS_FROM_ZOOM,
      filter: ["all", isPart("crown"), isWork, isDrawnSoon],
      layout: { "line-join": "round" },
      paint: {
        "line-color": urgencyTone(theme),
        "line-width": TOKENS.line.bandPx,
        "line-offset": TOKENS.line.bandPx / 2,
        // A band around a mark would say the same tone twice: it comes as the mark goes.
        "line-opacity": appear(MARK_STAYS),
      },
    },
    {
      id: "boughline-crown-edges",
      type: "line",
      source: SOURCES.crowns,
      metadata: { part: "crowns" },
      minzoom: CROWNS_FROM_ZOOM,
      filter: ["all", isPart("crown"), isDrawnSoon],
      layout: { "line-join": "round" },
      paint: {
        "line-color": byState(ink, ink, vegetation.edge),
        "line-width": byState(TOKENS.line.selectedPx, TOKENS.line.crownPx * 1.75, TOKENS.line.crownPx),
        "line-opacity": fadeIn(0),
      },
    },
    {
      id: "boughline-crown-ink",
      type: "line",
      source: SOURCES.crowns,
      metadata: { part: "crowns", trees: true },
      minzoom: CROWNS_FROM_ZOOM,
      filter: ["all", isPart("crown"), isWork, isDrawnSoon],
      layout: { "line-join": "round" },
      paint: { "line-color": ink, "line-width": TOKENS.line.crownPx, "line-opacity": fadeIn(0) },
    },
    {
      id: "boughline-trunks",
      type: "fill",
      source: SOURCES.crowns,
      metadata: { part: "crowns" },
      minzoom: 17,
      filter: isPart("trunk"),
      paint: { "fill-color": vegetation.trunk, "fill-opacity": fadeIn(1) },
    },
  ];
}

/**
 * Quiet dots for all trees, the ring of the selected one, and above them the marks, urgent ones on top: far out dots that are larger and
 * darker the sooner the work is wanted, then their shapes.
 */
export function markLayers(theme: Theme): PlanLayer[] {
  const { vegetation, ink, ground } = theme;
  const source = SOURCES.trees;
  const weight = byUrgency({ now: 1.1, "next-window": 1, "this-cycle": 0.9, watch: 0.74, clear: 0.6 });
  // What must first be looked at weighs less than what is known.
  const surer: ExpressionSpecification = ["case", isPossible, 0.8, 1];
  const sized = (size: number): ExpressionSpecification => ["*", size, weight, surer];
  return [
    {
      id: "boughline-tree-dots",
      type: "circle",
      source,
      metadata: { part: "marks" },
      paint: {
        "circle-radius": ["interpolate", ["linear"], ["zoom"], 10, 0.5, 13, 0.8, 15, 1.4, 17, 2.2],
        // A ring says clear; a dot only that nothing was found.
        "circle-color": ["step", ["zoom"], vegetation.dot, 15, ["case", isClear, ground, vegetation.dot]],
        "circle-opacity": fadeOut(1),
        "circle-stroke-color": theme.quiet,
        "circle-stroke-width": ["step", ["zoom"], 0, 15, ["case", isClear, 1, 0]],
        "circle-stroke-opacity": fadeOut(1),
      },
    },
    {
      id: "boughline-tree-rings",
      type: "circle",
      source,
      metadata: { part: "marks" },
      paint: {
        // Without a radius the rings of all other trees cost nothing to draw.
        "circle-radius": [
          "interpolate",
          ["linear"],
          ["zoom"],
          11,
          byState(6, 6, 0),
          16,
          byState(12, 12, 0),
          19,
          byState(14, 14, 0),
        ],
        "circle-color": ground,
        "circle-opacity": byStateFadingOut(0.5, 0.85, 0.6),
        "circle-stroke-color": ink,
        "circle-stroke-width": byState(2, 1, 0),
        "circle-stroke-opacity": byStateFadingOut(0.5, 1, 0.8),
      },
    },
    farMarkLayer(theme),
    {
      id: "boughline-marks",
      type: "symbol",
      source,
      metadata: { part: "marks", trees: true, flat: true },
      minzoom: SHAPES_FROM_ZOOM,
      filter: isWork,
      layout: {
        "icon-image": ["step", ["zoom"], ["get", "farImage"], 18, ["get", "image"]],
        "icon-rotate": ["get", "turn"],
        "icon-rotation-alignment": "map",
        "icon-allow-overlap": true,
        // Names of streets may stand between the marks.
        "icon-ignore-placement": true,
        "icon-padding": 0,
        "symbol-sort-key": ["get", "order"],
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
      paint: {
        // What no outline in plan can show keeps its mark close up.
        "icon-opacity": disappear(MARK_STAYS, [
          "!",
          ["in", ["get", "remedy"], ["literal", ["lift", "shorten", "remove-limb"]]],
        ]),
      },
    },
  ];
}

/** Dots in the urgency's tone; a ring in that tone where the conflict is only possible. */
function farMarkLayer(theme: Theme): PlanLayer {
  const radius = (share: number): ExpressionSpecification => ["*", share, byUrgency(TOKENS.mark.farRadiusPx)];
  return {
    id: "boughline-far-marks",
    type: "circle",
    source: SOURCES.trees,
    metadata: { part: "marks", trees: true },
    maxzoom: SHAPES_FROM_ZOOM,
    filter: isWork,
    layout: { "circle-sort-key": ["get", "order"] },
    paint: {
      "circle-radius": farMarkRadius(radius),
      "circle-color": ["case", isPossible, theme.ground, urgencyTone(theme)],
      // Tones that stand out by themselves are parted by the ground's; pale ones need an edge of ink.
      "circle-stroke-color": [
        "case",
        isPossible,
        urgencyTone(theme),
        ["in", ["get", "urgency"], ["literal", ["now", "next-window"]]],
        theme.ground,
        theme.ink,
      ],
      "circle-stroke-width": [
        "case",
        isPossible,
        0.9,
        byUrgency({ now: 0.7, "next-window": 0.6, "this-cycle": 0.4, watch: 0.4, clear: 0.4 }),
      ],
    },
  };
}

/** What is to be done and its figure, beside the crown. */
export function figureLayer(theme: Theme, textFont: readonly string[]): PlanLayer {
  return {
    id: "boughline-figures",
    type: "symbol",
    source: SOURCES.figures,
    metadata: { part: "labels", trees: true, flat: true },
    minzoom: 17,
    filter: ["all", isWork, ["<=", ["+", ["get", "shows"], 1.2], ["zoom"]]],
    layout: {
      "text-field": ["get", "text"],
      "text-font": [...textFont],
      "text-size": TOKENS.type.mapPx,
      "text-anchor": "left",
      "text-offset": [0.4, 0],
      "text-max-width": 9,
      "symbol-sort-key": ["-", 0, ["get", "order"]],
    },
    paint: {
      "text-color": theme.ink,
      "text-halo-color": theme.ground,
      "text-halo-width": 1.75,
    },
  };
}
