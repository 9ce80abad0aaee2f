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
      // Outlines only close up: far out they would be most of what is seen.
      paint: {
        "fill-color": surroundings.building,
        "fill-outline-color": ["step", ["zoom"], surroundings.building, 16, surroundings.buildingEdge],
      },
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
      id: "boughline-path-edges",
      type: "line",
      source,
      metadata: { part: "surroundings" },
      minzoom: 16,
      filter: both(isLayer("paths"), isShape("LineString"), ["has", "px0"], ["!=", ["get", "px0"], null]),
      layout: { "line-cap": "butt", "line-join": "round" },
      paint: { "line-color": surroundings.pathEdge, "line-width": trueWidth(0.8, 1.5) },
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
        // Three wires side by side make one black bar far out.
        "line-width": ["interpolate", ["linear"], ["zoom"], 13, 0.3, 16, 0.6, 17.5, 0.9, 19, TOKENS.line.conductorPx],
        "line-opacity": ["interpolate", ["linear"], ["zoom"], 13, 0.25, 15, 0.45, 17, 1],
      },
    },
    ...(["poles", "signs", "signals"] as const).map(
      (layer): PlanLayer => ({
        id: `boughline-${layer}`,
        type: "symbol",
        source,
        metadata: { part: "conductors" },
        minzoom: 16.5,
        filter: ["all", isLayer(layer), isShape("Point")],
        layout: {
          "icon-image": `boughline-${layer.slice(0, -1)}`,
          "icon-rotate": ["coalesce", ["get", "turn"], 0],
          "icon-rotation-alignment": "map",
          "icon-allow-overlap": true,
          "icon-ignore-placement": true,
          "icon-size": ["interpolate", ["linear"], ["zoom"], 16.5, 0.55, 19, 1.1],
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
    minzoom: 15.4,
    filter: ["all", isLayer("roads"), isShape("LineString"), ["!=", ["get", "name"], null]],
    layout: {
      "symbol-placement": "line",
      "symbol-spacing": 320,
      "text-field": ["get", "name"],
      "text-font": [...textFont],
      "text-size": ["interpolate", ["linear"], ["zoom"], 15.4, TOKENS.type.mapSmallPx, 17, TOKENS.type.mapPx + 1],
      "text-letter-spacing": 0.04,
      "text-max-angle": 30,
      "text-padding": 4,
    },
    paint: {
      "text-color": theme.surroundings.label,
      "text-halo-color": theme.surroundings.road,
      "text-halo-width": 1.5,
    },
  };
}
