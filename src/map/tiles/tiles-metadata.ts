import type { Plan } from "../../core/model/plan.ts";
import type { ArchiveFacts } from "../../formats/tiles/pmtiles-archive.ts";
import type { TreePlaces } from "./plan-places.ts";
import { LAST_THINNED_ZOOM, PLAN_TILE_LAYERS, TILE_ZOOMS } from "./tile-layers.ts";

/** What the tiles of a plan say of themselves: whose they are, where its trees stand, and what the layers hold. */
export function tilesMetadata(plan: Plan, { lonDeg, latDeg }: TreePlaces): ArchiveFacts {
  const edge = (places: Float64Array, of: (one: number, other: number) => number) =>
    places.reduce((one, other) => of(one, other), places[0] ?? 0);
  return {
    metadata: {
      name: plan.planId,
      description: `Trees, conflicts, zones, surroundings and sight of revision ${plan.revision} as of ${plan.options.asOf}`,
      type: "overlay",
      version: String(plan.revision),
      vector_layers: Object.values(PLAN_TILE_LAYERS).map(({ name, minZoom, fields }) => ({
        id: name,
        fields,
        minzoom: minZoom,
        maxzoom: TILE_ZOOMS.last,
      })),
      plan: plan.planId,
      revision: plan.revision,
      as_of: plan.options.asOf,
      units: plan.options.units,
      thinned_to_zoom: LAST_THINNED_ZOOM,
    },
    bounds: [edge(lonDeg, Math.min), edge(latDeg, Math.min), edge(lonDeg, Math.max), edge(latDeg, Math.max)],
    centerZoom: 12,
  };
}
