import type { ExpressionSpecification } from "maplibre-gl";
import { SOURCES } from "../ids.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import { trueWidth } from "./expressions.ts";
import type { PlanLayer } from "./plan-layer.ts";

const source = SOURCES.surroundings;
const isLayer = (layer: string): ExpressionSpecification => ["==", ["get", "layer"], layer];
const isShape = (type: "Polygon" | "LineString" | "Point"): ExpressionSpecification => ["==", ["geometry-type"], type];

/** The quiet ground: buildings, ways at their true width, their names; drawn where the host shows no map of its own. */
export function surroundingsLayers(theme: Theme): PlanLayer[] {
  const { surroundings } = theme;
  const both = (...filters: ExpressionSpecification[]) => ["all", ...filters] as ExpressionSpecification;
  const wayLine = both(isLayer("roads"), isShape("LineString"), ["has", "px0"], ["!=", ["get", "px0"], null]);
  return [
    {
      id: "boughline-ground",
      type: "background",
      metadata: { part: "surroundings" },
      paint: { "background-color": theme.ground },
    },
    {
      id: "boughline-buildings",
      type: "fill",
      source,
      metadata: { part: "surroundings" },
      minzoom: 13,
      filter: both(isLayer("buildings"), isShape("Polygon")),
      paint: { "fill-color": surroundings.building, "fill-outline-color": surroundings.buildingEdge },
    },
    {
      id: "boughline-path-areas",
      type: "fill",
      source,
      metadata: { part: "surroundings" },
      filter: both(isLayer("paths"), isShape("Polygon")),
      paint: { "fill-color": surroundings.path, "fill-outline-color": surroundings.pathEdge },
    },
    {
      id: "boughline-paths",
      type: "line",
      source,
      metadata: { part: "surroundings" },
      minzoom: 14,
      filter: both(isLayer("paths"), isShape("LineString")),
      layout: { "line-cap": "butt", "line-join": "round" },
      paint: { "line-color": surroundings.path, "line-width": trueWidth(0.8) },
    },
    {
      id: "boughline-road-area-edges",
      type: "line",
      source,
      metadata: { part: "surroundings" },
      filter: both(isLayer("roads"), isShape("Polygon")),
      paint: { "line-color": surroundings.roadEdge, "line-width": 1.5 },
    },
    {
      id: "boughline-road-edges",
      type: "line",
      source,
      metadata: { part: "surroundings" },
      filter: wayLine,
      layout: { "line-cap": "round", "line-join": "round" },
      paint: { "line-color": surroundings.roadEdge, "line-width": trueWidth(1.2, 1.5) },
    },
    {
      id: "boughline-road-areas",
      type: "fill",
      source,
      metadata: { part: "surroundings" },
      filter: both(isLayer("roads"), isShape("Polygon")),
      paint: { "fill-color": surroundings.road },
    },
    {
      id: "boughline-roads",
      type: "line",
      source,
      metadata: { part: "surroundings" },
      filter: wayLine,
      layout: { "line-cap": "round", "line-join": "round" },
      paint: { "line-color": surroundings.road, "line-width": trueWidth(1.2) },
    },
  ];
}

/** Conductors as ink lines, their poles, and signs and signals; above the crowns, since that is where they hang. */
export function overheadLayers(theme: Theme): PlanLayer[] {
  const { surroundings } = theme;
  return [
    {
      id: "boughline-conductors",
      type: "line",
      source,
      metadata: { part: "conductors" },
      minzoom: 13,
      filter: ["all", isLayer("conductors"), isShape("LineString")],
      layout: { "line-cap": "round", "line-join": "round" },
      paint: {
        "line-color": surroundings.conductor,
        "line-width": ["interpolate", ["linear"], ["zoom"], 13, 0.5, 16, 0.9, 19, TOKENS.line.conductorPx],
      },
    },
    ...(["conductors", "signs", "signals"] as const).map(
      (layer): PlanLayer => ({
        id: layer === "conductors" ? "boughline-poles" : `boughline-${layer}`,
        type: "symbol",
        source,
        metadata: { part: "conductors" },
        minzoom: 16,
        filter: ["all", isLayer(layer), isShape("Point")],
        layout: {
          "icon-image": `boughline-${layer === "conductors" ? "pole" : layer.slice(0, -1)}`,
          "icon-allow-overlap": true,
          "icon-ignore-placement": true,
          "icon-size": ["interpolate", ["linear"], ["zoom"], 16, 0.7, 19, 1],
        },
      }),
    ),
  ];
}

/** Names of the ways along them. */
export function roadNameLayer(theme: Theme, textFont: readonly string[]): PlanLayer {
  return {
    id: "boughline-road-names",
    type: "symbol",
    source,
    metadata: { part: "labels" },
    minzoom: 14.5,
    filter: ["all", isLayer("roads"), isShape("LineString"), ["!=", ["get", "name"], null]],
    layout: {
      "symbol-placement": "line",
      "symbol-spacing": 420,
      "text-field": ["get", "name"],
      "text-font": [...textFont],
      "text-size": TOKENS.type.mapPx,
      "text-letter-spacing": 0.04,
      "text-padding": 6,
    },
    paint: {
      "text-color": theme.surroundings.label,
      "text-halo-color": theme.surroundings.road,
      "text-halo-width": 1.5,
    },
  };
}
