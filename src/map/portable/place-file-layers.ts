import type { ExpressionSpecification } from "maplibre-gl";
import { byUrgency } from "../layers/expressions.ts";
import type { PlanLayer } from "../layers/plan-layer.ts";
import { sightLayers } from "../layers/sight-layers.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import { groundPx } from "./ground-px.ts";
import { FILE_SOURCES, SPRITE_ID } from "./plan-files.ts";

const isLayer = (layer: string): ExpressionSpecification => ["==", ["get", "layer"], layer];
const isShape = (type: "Polygon" | "LineString" | "Point"): ExpressionSpecification => ["==", ["geometry-type"], type];

/** Buildings and ways of `surroundings.geojson` at their true width, for a map that has none of its own. */
export function surroundingsFileLayers(theme: Theme): PlanLayer[] {
  const { surroundings } = theme;
  const source = FILE_SOURCES.surroundings;
  const metadata = { part: "surroundings" } as const;
  const width: ExpressionSpecification = ["to-number", ["coalesce", ["get", "width_m"], 1]];
  return [
    {
      id: "boughline-buildings",
      type: "fill",
      source,
      metadata,
      minzoom: 14,
      filter: ["all", isLayer("buildings"), isShape("Polygon")],
      paint: { "fill-color": surroundings.building, "fill-outline-color": surroundings.buildingEdge },
    },
    {
      id: "boughline-road-areas",
      type: "fill",
      source,
      metadata,
      filter: ["all", isLayer("roads"), isShape("Polygon")],
      paint: { "fill-color": surroundings.road, "fill-outline-color": surroundings.roadEdge },
    },
    ...(["paths", "roads"] as const).flatMap((layer): PlanLayer[] =>
      (["edges", "ways"] as const).map((stroke) => ({
        id: `boughline-${layer}-${stroke}`,
        type: "line",
        source,
        metadata,
        minzoom: 13,
        filter: ["all", isLayer(layer), isShape("LineString")],
        layout: { "line-cap": layer === "roads" ? "round" : "butt", "line-join": "round" },
        paint:
          stroke === "edges"
            ? {
                "line-color": layer === "roads" ? surroundings.roadEdge : surroundings.pathEdge,
                "line-width": groundPx(["+", width, 0.3]),
              }
            : {
                "line-color": layer === "roads" ? surroundings.road : surroundings.path,
                "line-width": groundPx(width),
              },
      })),
    ),
  ];
}

/** Sight triangles and what trees hide in them, of `sight.geojson`. */
export const sightFileLayers = (theme: Theme): PlanLayer[] =>
  sightLayers(theme).map((layer) => ({ ...layer, source: FILE_SOURCES.sight }) as PlanLayer);

/** The encroaching parts of crowns, of `conflicts.geojson`; the outline is broken where a conflict is not confirmed. */
export function conflictFileLayers(theme: Theme): PlanLayer[] {
  const source = FILE_SOURCES.conflicts;
  const metadata = { part: "crowns" } as const;
  const isConfirmed: ExpressionSpecification = ["==", ["get", "certainty"], "confirmed"];
  const edge = { "line-color": theme.ink, "line-width": TOKENS.line.crownPx };
  return [
    {
      id: "boughline-encroachments",
      type: "fill",
      source,
      metadata,
      minzoom: 17,
      paint: { "fill-color": theme.drawing.removed, "fill-opacity": 0.85 },
    },
    {
      id: "boughline-encroachment-edges",
      type: "line",
      source,
      metadata,
      minzoom: 17,
      filter: isConfirmed,
      layout: { "line-join": "round" },
      paint: edge,
    },
    {
      id: "boughline-encroachment-edges-unsure",
      type: "line",
      source,
      metadata,
      minzoom: 17,
      filter: ["!", isConfirmed],
      layout: { "line-join": "round" },
      paint: { ...edge, "line-dasharray": [3, 2] },
    },
  ];
}

/** Conductors as ink lines, signs and signals, of `surroundings.geojson`. */
export function overheadFileLayers(theme: Theme): PlanLayer[] {
  const source = FILE_SOURCES.surroundings;
  const metadata = { part: "conductors" } as const;
  return [
    {
      id: "boughline-conductors",
      type: "line",
      source,
      metadata,
      minzoom: 13,
      filter: ["all", isLayer("conductors"), isShape("LineString")],
      layout: { "line-cap": "round", "line-join": "round" },
      paint: {
        "line-color": theme.surroundings.conductor,
        "line-width": ["interpolate", ["linear"], ["zoom"], 13, 0.3, 16, 0.6, 19, TOKENS.line.conductorPx],
        "line-opacity": ["interpolate", ["linear"], ["zoom"], 13, 0.25, 15, 0.45, 17, 1],
      },
    },
    {
      id: "boughline-signs",
      type: "symbol",
      source,
      metadata,
      minzoom: 16.5,
      filter: ["all", isShape("Point"), ["in", ["get", "layer"], ["literal", ["signs", "signals", "conductors"]]]],
      layout: {
        "icon-image": [
          "match",
          ["get", "layer"],
          "signs",
          `${SPRITE_ID}:sign`,
          "signals",
          `${SPRITE_ID}:signal`,
          `${SPRITE_ID}:pole`,
        ],
        "icon-allow-overlap": true,
        "icon-ignore-placement": true,
        "icon-size": ["interpolate", ["linear"], ["zoom"], 16.5, 0.55, 19, 1.1],
      },
    },
  ];
}

/** Work zones of `zones.geojson`: the pattern says the state, the outline's weight how soon, its name stands beside it. */
export function zoneFileLayers(theme: Theme): PlanLayer[] {
  const source = FILE_SOURCES.zones;
  const metadata = { part: "zones" } as const;
  return [
    {
      id: "boughline-zones",
      type: "fill",
      source,
      metadata,
      minzoom: 13,
      paint: { "fill-pattern": ["concat", `${SPRITE_ID}:zone-`, ["get", "state"]] },
    },
    {
      id: "boughline-zone-edges",
      type: "line",
      source,
      metadata,
      minzoom: 12,
      layout: { "line-join": "round" },
      paint: { "line-color": theme.zone, "line-opacity": 0.7, "line-width": byUrgency(TOKENS.line.zonePx) },
    },
    {
      id: "boughline-zone-tabs",
      type: "symbol",
      source,
      metadata,
      minzoom: 15,
      filter: ["==", ["get", "state"], "done"],
      layout: {
        "symbol-placement": "line-center",
        "icon-image": `${SPRITE_ID}:zone-tab`,
        "icon-rotation-alignment": "viewport",
        "icon-allow-overlap": true,
      },
    },
  ];
}

/** The zones' names with crew and hours. */
export const zoneNameFileLayer = (theme: Theme): PlanLayer => ({
  id: "boughline-zone-names",
  type: "symbol",
  source: FILE_SOURCES.zones,
  metadata: { part: "labels" },
  // A zone has many parts, and each would carry its name: where there is room, and far enough from the next.
  minzoom: 16.5,
  layout: {
    "text-field": [
      "format",
      ["get", "name"],
      {},
      "\n",
      {},
      ["concat", ["get", "crew"], " · ", ["number-format", ["get", "hours"], { "max-fraction-digits": 1 }], " h"],
      { "font-scale": 0.93 },
    ],
    "text-size": TOKENS.type.mapPx,
    // Beside the middle of a part, where most often a tree stands.
    "text-variable-anchor": ["bottom", "top", "left", "right"],
    "text-radial-offset": 2.2,
    "text-justify": "auto",
    "text-max-width": 14,
    "text-padding": 60,
  },
  paint: { "text-color": theme.ink, "text-halo-color": theme.ground, "text-halo-width": 2 },
});
