import type { ExpressionSpecification } from "maplibre-gl";
import type { ZoneState } from "../../core/model/terms.ts";
import { SOURCES } from "../ids.ts";
import { TAB_IMAGE } from "../symbols/mark-images.ts";
import { mixed } from "../symbols/pixels.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import { byState, byUrgency } from "./expressions.ts";
import type { PlanLayer } from "./plan-layer.ts";

/** Bands from here, and true outlines in their place from {@link OUTLINES_FROM_ZOOM}; between them would be seen both, neither well. */
const ZONES_FROM_ZOOM = 12;
const OUTLINES_FROM_ZOOM = 16.6;
/** Where an outline is long enough on the screen to carry the zone's name, crew and hours. */
const NAMES_ON_OUTLINES_FROM_ZOOM = 18.5;
const isShape = (shape: "band" | "stop" | "link" | "title"): ExpressionSpecification => ["==", ["get", "shape"], shape];

/** How much ink is in the tone of a zone's band, by its state: the further the work, the darker; a done one is empty. */
const BAND_INK: Readonly<Record<ZoneState, number>> = { draft: 0.1, issued: 0.17, "under-way": 0.26, done: 0 };

/** The zones below the crowns: bands far out, the links between their parts, patterns close up. */
export function zoneAreaLayers(theme: Theme): PlanLayer[] {
  const { zoneBandPx } = TOKENS.line;
  const width = (morePx: number): ExpressionSpecification => [
    "interpolate",
    ["exponential", 1.6],
    ["zoom"],
    12,
    zoneBandPx * 0.3 + morePx,
    15,
    zoneBandPx * 0.85 + morePx,
    17,
    zoneBandPx * 2 + morePx,
  ];
  const half = (morePx: number): ExpressionSpecification => [
    "interpolate",
    ["exponential", 1.6],
    ["zoom"],
    12,
    zoneBandPx * 0.15 + morePx,
    15,
    zoneBandPx * 0.425 + morePx,
    17,
    zoneBandPx + morePx,
  ];
  const tones = Object.entries(BAND_INK).flatMap(([state, share]) => [state, mixed(theme.ground, theme.zone, share)]);
  const tone = ["match", ["get", "state"], ...tones, theme.ground] as unknown as ExpressionSpecification;
  const stops = { source: SOURCES.zoneBands, filter: isShape("stop"), metadata: { part: "zones" } } as const;
  const bands = { source: SOURCES.zoneBands, filter: isShape("band"), metadata: { part: "zones" } } as const;
  const range = { minzoom: ZONES_FROM_ZOOM, maxzoom: OUTLINES_FROM_ZOOM };
  const edge = bandEdgeColor(theme, false);
  const layers: PlanLayer[] = [
    {
      id: "boughline-zone-links",
      type: "line",
      source: SOURCES.zoneBands,
      metadata: { part: "zones" },
      minzoom: ZONES_FROM_ZOOM,
      filter: isShape("link"),
      layout: { "line-cap": "round" },
      paint: {
        "line-color": theme.zone,
        "line-width": 1.75,
        "line-dasharray": [0.1, 2.6],
        "line-opacity": linkOpacity(false),
      },
    },
    {
      id: "boughline-zone-band-edges",
      type: "line",
      ...bands,
      ...range,
      layout: { "line-cap": "round" },
      paint: { "line-color": edge, "line-width": width(2) },
    },
    {
      id: "boughline-zone-stop-edges",
      type: "circle",
      ...stops,
      ...range,
      paint: { "circle-color": edge, "circle-radius": half(1) },
    },
    {
      id: "boughline-zone-bands",
      type: "line",
      ...bands,
      ...range,
      layout: { "line-cap": "round" },
      paint: { "line-color": tone, "line-width": width(0) },
    },
    {
      id: "boughline-zone-stops",
      type: "circle",
      ...stops,
      ...range,
      paint: { "circle-color": tone, "circle-radius": half(0) },
    },
    {
      id: "boughline-zones",
      type: "fill",
      source: SOURCES.zones,
      metadata: { part: "zones" },
      minzoom: OUTLINES_FROM_ZOOM,
      paint: { "fill-pattern": ["get", "pattern"] },
    },
  ];
  return layers;
}

/** The zones' outlines, heavier the sooner they are due, and the tab of a done one. */
export function zoneEdgeLayers(theme: Theme): PlanLayer[] {
  const { zonePx, selectedPx } = TOKENS.line;
  return [
    {
      id: "boughline-zone-edges",
      type: "line",
      source: SOURCES.zoneEdges,
      metadata: { part: "zones" },
      minzoom: OUTLINES_FROM_ZOOM,
      filter: ["==", ["geometry-type"], "LineString"],
      layout: { "line-join": "round" },
      paint: {
        "line-color": theme.zone,
        "line-opacity": edgeOpacity(false),
        "line-width": ["+", byUrgency(zonePx), byState(selectedPx / 4, 0.5, 0)],
      },
    },
    {
      id: "boughline-zone-tabs",
      type: "symbol",
      source: SOURCES.zoneEdges,
      metadata: { part: "zones" },
      minzoom: OUTLINES_FROM_ZOOM,
      filter: ["all", ["==", ["geometry-type"], "Point"], ["==", ["get", "state"], "done"]],
      layout: { "icon-image": TAB_IMAGE, "icon-allow-overlap": true, "icon-ignore-placement": true },
    },
  ];
}

/** The paint that changes when a zone is selected, so that the others step back: layer, property, value. */
export function zonePaint(
  theme: Theme,
  oneIsSelected: boolean,
): readonly (readonly [layerId: string, name: string, value: unknown])[] {
  const edge = bandEdgeColor(theme, oneIsSelected);
  return [
    ["boughline-zone-band-edges", "line-color", edge],
    ["boughline-zone-stop-edges", "circle-color", edge],
    ["boughline-zone-links", "line-opacity", linkOpacity(oneIsSelected)],
    ["boughline-zone-edges", "line-opacity", edgeOpacity(oneIsSelected)],
    // The selected one is named beside the map, and its numbers need the room; others are named when pointed at.
    ["boughline-zone-titles", "text-opacity", byState(0, 1, oneIsSelected ? 0 : 1)],
  ];
}

function bandEdgeColor(theme: Theme, oneIsSelected: boolean): ExpressionSpecification {
  const quiet = mixed(theme.ground, theme.zone, oneIsSelected ? 0.26 : 0.62);
  return byState(theme.zone, theme.zone, quiet);
}

/**
 * Links are shown for all zones from where they do not cross a whole town, and always for the one pointed at; the selected one has its
 * order of work instead.
 */
function linkOpacity(oneIsSelected: boolean): ExpressionSpecification {
  const others = (opacity: number) => byState(0, 0.9, oneIsSelected ? 0 : opacity);
  return ["interpolate", ["linear"], ["zoom"], 14.5, others(0), 15.5, others(0.45), 17, others(0.45), 18, others(0.15)];
}

function edgeOpacity(oneIsSelected: boolean): ExpressionSpecification {
  return byState(1, 0.9, oneIsSelected ? 0.18 : 0.65);
}

/** The selected zone's order of work. */
export function threadLayers(theme: Theme, textFont: readonly string[]): PlanLayer[] {
  return [
    {
      id: "boughline-thread",
      type: "line",
      source: SOURCES.thread,
      metadata: { part: "zones" },
      filter: ["==", ["geometry-type"], "LineString"],
      layout: { "line-join": "round", "line-cap": "round" },
      paint: { "line-color": theme.ink, "line-width": TOKENS.line.threadPx },
    },
    {
      id: "boughline-thread-numbers",
      type: "symbol",
      source: SOURCES.thread,
      metadata: { part: "zones" },
      minzoom: 14,
      filter: ["==", ["geometry-type"], "Point"],
      layout: {
        "text-field": ["get", "number"],
        "text-font": [...textFont],
        "text-size": TOKENS.type.mapPx + 2,
        "text-anchor": "bottom-left",
        "text-offset": [0.45, -0.35],
        "text-allow-overlap": ["step", ["zoom"], false, 15.5, true],
        "text-ignore-placement": true,
        "symbol-sort-key": ["to-number", ["get", "number"]],
      },
      paint: { "text-color": theme.ink, "text-halo-color": theme.ground, "text-halo-width": 2.5 },
    },
  ];
}

/** Far out the zone's name once, beside its largest part; close up name, crew and hours on the outline, as a street name stands. */
export function zoneNameLayers(theme: Theme, textFont: readonly string[]): PlanLayer[] {
  const { mapPx } = TOKENS.type;
  return [
    {
      id: "boughline-zone-titles",
      type: "symbol",
      source: SOURCES.zoneBands,
      metadata: { part: "zones" },
      minzoom: 13,
      maxzoom: NAMES_ON_OUTLINES_FROM_ZOOM,
      filter: isShape("title"),
      layout: {
        "text-field": [
          "step",
          ["zoom"],
          ["get", "name"],
          15.5,
          ["format", ["get", "name"], {}, "\n", {}, ["get", "detail"], { "font-scale": 0.93 }],
        ],
        "text-font": [...textFont],
        "text-size": mapPx,
        "text-variable-anchor": ["bottom", "top", "left", "right"],
        "text-radial-offset": ["interpolate", ["linear"], ["zoom"], 15, 0.9, 18.5, 2.6],
        "text-justify": "auto",
        "text-max-width": 14,
        "text-padding": 3,
        "symbol-sort-key": ["get", "order"],
      },
      paint: {
        "text-color": theme.ink,
        "text-halo-color": theme.ground,
        "text-halo-width": 2,
        "text-opacity": byState(0, 1, 1),
      },
    },
    {
      id: "boughline-zone-names",
      type: "symbol",
      source: SOURCES.zoneNames,
      metadata: { part: "zones" },
      minzoom: NAMES_ON_OUTLINES_FROM_ZOOM,
      layout: {
        "symbol-placement": "line-center",
        "text-field": ["get", "text"],
        "text-font": [...textFont],
        "text-size": mapPx,
        "text-max-angle": 30,
        "text-padding": 4,
      },
      paint: { "text-color": theme.ink, "text-halo-color": theme.ground, "text-halo-width": 3, "text-halo-blur": 0.5 },
    },
  ];
}
