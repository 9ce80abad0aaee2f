import type { Map as MapLibreMap } from "maplibre-gl";
import type { PlanSources } from "../create-sources.ts";
import type { PlanLook } from "../features/plan-look.ts";
import { PlanSolids } from "../features/solids/plan-solids.ts";
import type { Solid } from "../features/solids/solid.ts";
import { SOURCES } from "../ids.ts";
import { SOLIDS_FROM_ZOOM } from "../layers/solid-layers.ts";
import type { LayerOptions } from "../options.ts";
import { covers, type SeenGround, seenGround } from "./seen-ground.ts";

/** How many trees stand as solids. */
export interface SolidsShown {
  readonly trees: number;
  readonly treesInView: number;
  /** Whether the map is too far out for solids. */
  readonly isTooFar: boolean;
}

/** Stacks the solids of the ground that a map looks at, and of other ground when it has moved there. */
export class SolidsInView {
  readonly #map: MapLibreMap;
  #made: PlanSolids | null = null;
  #seen: SeenGround | null = null;
  #isEmpty = true;

  constructor(map: MapLibreMap) {
    this.#map = map;
  }

  /** Has everything stacked anew at the next rest, for other units. */
  forget(): void {
    this.#seen = null;
  }

  /** What is owed now that the map stands still, and how many trees then stand; null for nothing. */
  atRest(
    look: PlanLook | null,
    options: LayerOptions,
    isShown: boolean,
  ): { readonly sources: PlanSources; readonly shown: SolidsShown } | null {
    if (!isShown || look === null) return this.#clear();
    if (this.#map.getZoom() < SOLIDS_FROM_ZOOM) return this.#clear();
    if (this.#made?.look !== look) {
      this.#made = new PlanSolids(look);
      this.#seen = null;
    }
    if (this.#seen !== null && covers(this.#seen, { ...seenGround(this.#map, 0), zoom: this.#seen.zoom })) return null;
    this.#seen = seenGround(this.#map, 0.2);
    this.#isEmpty = false;
    const { lng, lat } = this.#map.getCenter();
    const { solids, trees, treesInView } = this.#made.on({ ...this.#seen, middle: [lng, lat] }, options);
    return { sources: solidsSource(solids), shown: { trees, treesInView, isTooFar: false } };
  }

  #clear() {
    this.#seen = null;
    if (this.#isEmpty) return null;
    this.#isEmpty = true;
    return { sources: solidsSource([]), shown: { trees: 0, treesInView: 0, isTooFar: true } };
  }
}

/** The source of solids; ids are trees, so that all layers of a tree are selected together. */
export const solidsSource = (solids: readonly Solid[]): PlanSources => ({
  [SOURCES.solids]: {
    type: "geojson",
    data: { type: "FeatureCollection", features: [...solids] },
    promoteId: "tree",
    tolerance: 0.08,
    maxzoom: 18,
  },
});
