import { SOURCES } from "../ids.ts";
import { type Theme, TOKENS } from "../tokens.ts";
import type { PlanLayer } from "./plan-layer.ts";

/** Sight triangles as fine edges over a breath of tone; only where a block fills the map, since further out they would cover streets. */
export function sightLayers(theme: Theme): PlanLayer[] {
  return [
    {
      id: "boughline-sight",
      type: "fill",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 16.5,
      paint: {
        "fill-color": theme.sight.fill,
        "fill-opacity": ["interpolate", ["linear"], ["zoom"], 16.5, 0, 18, 0.08],
      },
    },
    {
      id: "boughline-sight-edges",
      type: "line",
      source: SOURCES.sight,
      metadata: { part: "sight" },
      minzoom: 16.5,
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
