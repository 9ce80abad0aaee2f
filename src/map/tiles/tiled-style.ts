import type { Map as MapLibreMap, VectorSourceSpecification } from "maplibre-gl";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { PlanSources } from "../create-sources.ts";
import type { PlanLayer } from "../layers/plan-layer.ts";
import type { UnderPointer } from "../on-map/under-pointer.ts";
import { PLAN_TILE_LAYERS, type PlanTileLayer, TILE_ZOOMS } from "./tile-layers.ts";

/** The one source of a plan by its tiles. */
export const TILES_SOURCE = "boughline-tiles";

const LAYERS: readonly PlanTileLayer[] = Object.values(PLAN_TILE_LAYERS);

/** The source over a protocol that gives the tiles; ids are what features are named by, as in the sources of a whole plan. */
export const tilesSource = (protocol: string, bounds: [number, number, number, number]): PlanSources => {
  const source: VectorSourceSpecification = {
    type: "vector",
    tiles: [`${protocol}://tiles/{z}/{x}/{y}`],
    minzoom: TILE_ZOOMS.first,
    maxzoom: TILE_ZOOMS.last,
    bounds,
    promoteId: Object.fromEntries(LAYERS.flatMap(({ name, id }) => (id === null ? [] : [[name, id]]))),
  };
  // Put on the map as it is; only sources of GeoJSON are ever filled anew.
  return { [TILES_SOURCE]: source as unknown as PlanSources[string] };
};

/** The same layers over the tiles; those over sources that tiles do not have are left out, but for the order of work in a zone. */
export const tiledLayers = (
  layers: readonly PlanLayer[],
  kept: ReadonlySet<string>,
  units: DisplayUnits,
): PlanLayer[] =>
  layers.flatMap((layer): PlanLayer[] => {
    if (!("source" in layer) || kept.has(layer.source)) return [layer];
    const found = LAYERS.find(({ source }) => source === layer.source);
    if (found === undefined) return [];
    const tiled = { ...layer, source: TILES_SOURCE, "source-layer": found.name } as PlanLayer;
    if (found.name !== PLAN_TILE_LAYERS.figures.name || tiled.type !== "symbol") return [tiled];
    return [{ ...tiled, layout: { ...tiled.layout, "text-field": ["get", figureMember(units)] } }];
  });

/** The member that holds a figure in the reader's units. */
export const figureMember = (units: DisplayUnits): string => `text_${units}`;

const LAYERS_OF: Readonly<Record<UnderPointer["what"], readonly string[]>> = {
  tree: [PLAN_TILE_LAYERS.trees.name, PLAN_TILE_LAYERS.crowns.name],
  zone: [PLAN_TILE_LAYERS.zoneEdges.name, PLAN_TILE_LAYERS.zoneBands.name],
};

/** Says on the tiles whether a tree or zone is selected or pointed at. */
export function setTiledState(
  map: MapLibreMap,
  { what, id }: UnderPointer,
  state: { readonly selected?: boolean; readonly hover?: boolean },
): void {
  if (map.getSource(TILES_SOURCE) === undefined) return;
  for (const sourceLayer of LAYERS_OF[what]) map.setFeatureState({ source: TILES_SOURCE, sourceLayer, id }, state);
}
