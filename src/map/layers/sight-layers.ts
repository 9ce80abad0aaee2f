import type { FilterSpecification } from "maplibre-gl";
import { SOURCES } from "../ids.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import type { PlanLayer } from "./plan-layer.ts";

/** Triangles always; curves and wedges to faces, which lie on every street, only where something is hidden in them. */
const AREAS: FilterSpecification = [
  "all",
  ["!=", ["get", "part"], "blind"],
  ["any", ["==", ["get", "kind"], "sight-triangle"], [">", ["coalesce", ["get", "hidden_share"], 0], 0]],
];
const BLIND: FilterSpecification = ["==", ["get", "part"], "blind"];

/**
 * What drivers must see as fine edges over a breath of tone, and in it the ground that trees hide, darker; only where a block fills the map, since
 * further out they would cover streets.
 */
export function sightLayers(theme: Theme): PlanLayer[] {
  return [
    {
      id: "boughline-sight",
      type: "fill",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 16.5,
      filter: AREAS,
      paint: {
        "fill-color": theme.sight.fill,
        "fill-opacity": ["interpolate", ["linear"], ["zoom"], 16.5, 0, 18, 0.08],
      },
    },
    {
      id: "boughline-sight-blind",
      type: "fill",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 16.5,
      filter: BLIND,
      paint: {
        "fill-color": theme.sight.blind,
        "fill-opacity": ["interpolate", ["linear"], ["zoom"], 16.5, 0, 17.5, 0.18, 19, 0.3],
      },
    },
    {
      id: "boughline-sight-edges",
      type: "line",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 16.5,
      filter: AREAS,
      layout: { "line-join": "round" },
      paint: {
        "line-color": theme.sight.edge,
        "line-width": TOKENS.line.sightPx,
        "line-opacity": ["interpolate", ["linear"], ["zoom"], 16.5, 0, 17.5, 0.3, 19, 0.8],
        "line-dasharray": [6, 3],
      },
    },
  ];
}
