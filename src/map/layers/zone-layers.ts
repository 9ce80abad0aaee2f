import type { ExpressionSpecification } from "maplibre-gl";
import { SOURCES } from "../ids.ts";
import { TAB_IMAGE } from "../symbols/mark-images.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import { byState, byUrgency } from "./expressions.ts";
import type { PlanLayer } from "./plan-layer.ts";

const ZONES_FROM_ZOOM = 13;

/** Sight triangles as fine edges over a breath of tone. */
export function sightLayers(theme: Theme): PlanLayer[] {
  return [
    {
      id: "boughline-sight",
      type: "fill",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 15,
      paint: { "fill-color": theme.sight.fill, "fill-opacity": 0.09 },
    },
    {
      id: "boughline-sight-edges",
      type: "line",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 15,
      layout: { "line-join": "round" },
      paint: {
        "line-color": theme.sight.edge,
        "line-width": TOKENS.line.sightPx,
        "line-opacity": ["interpolate", ["linear"], ["zoom"], 15, 0.35, 17, 0.8],
        "line-dasharray": [6, 3],
      },
    },
  ];
}

/** The zones' patterns, below the crowns. */
export function zoneAreaLayers(): PlanLayer[] {
  return [
    {
      id: "boughline-zones",
      type: "fill",
      source: SOURCES.zones,
      metadata: { part: "zones" },
      minzoom: ZONES_FROM_ZOOM,
      paint: {
        "fill-pattern": ["get", "pattern"],
        "fill-opacity": ["interpolate", ["linear"], ["zoom"], 15, 0, 16.5, 0.6, 18, 1],
      },
    },
  ];
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
      minzoom: ZONES_FROM_ZOOM,
      filter: ["==", ["geometry-type"], "LineString"],
      layout: { "line-join": "round" },
      paint: {
        "line-color": theme.zone,
        "line-opacity": zoneEdgeOpacity(false),
        "line-width": ["+", byUrgency(zonePx), byState(selectedPx / 2, 0.5, 0)],
      },
    },
    {
      id: "boughline-zone-tabs",
      type: "symbol",
      source: SOURCES.zoneEdges,
      metadata: { part: "zones" },
      minzoom: ZONES_FROM_ZOOM,
      filter: ["all", ["==", ["geometry-type"], "Point"], ["==", ["get", "state"], "done"]],
      layout: { "icon-image": TAB_IMAGE, "icon-allow-overlap": true, "icon-ignore-placement": true },
    },
  ];
}

/** How strongly zones' outlines are drawn: softly far out, and hardly while another zone is the one looked at. */
export function zoneEdgeOpacity(oneIsSelected: boolean): ExpressionSpecification {
  const others = (opacity: number) => byState(1, 0.9, oneIsSelected ? Math.min(opacity, 0.15) : opacity);
  return ["interpolate", ["linear"], ["zoom"], 13, others(0.12), 15.5, others(0.3), 17, others(0.5), 18, others(0.62)];
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
      paint: { "line-color": theme.ink, "line-width": TOKENS.line.threadPx, "line-opacity": 0.8 },
    },
    {
      id: "boughline-thread-numbers",
      type: "symbol",
      source: SOURCES.thread,
      metadata: { part: "zones" },
      minzoom: 15,
      filter: ["==", ["geometry-type"], "Point"],
      layout: {
        "text-field": ["get", "number"],
        "text-font": [...textFont],
        "text-size": TOKENS.type.mapPx,
        "text-anchor": "bottom-left",
        "text-offset": [0.5, -0.4],
        "text-allow-overlap": true,
        "text-ignore-placement": true,
      },
      paint: { "text-color": theme.ink, "text-halo-color": theme.ground, "text-halo-width": 2 },
    },
  ];
}

/** Name, crew and hours, sitting on the outline as a street name does. */
export function zoneNameLayer(theme: Theme, textFont: readonly string[]): PlanLayer {
  return {
    id: "boughline-zone-names",
    type: "symbol",
    source: SOURCES.zoneNames,
    metadata: { part: "labels" },
    minzoom: 16,
    layout: {
      "symbol-placement": "line-center",
      "text-field": ["get", "text"],
      "text-font": [...textFont],
      "text-size": TOKENS.type.mapPx,
      "text-max-angle": 30,
      "text-padding": 4,
    },
    paint: { "text-color": theme.ink, "text-halo-color": theme.ground, "text-halo-width": 3, "text-halo-blur": 0.5 },
  };
}
