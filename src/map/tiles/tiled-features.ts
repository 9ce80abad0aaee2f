import type { FilterSpecification, MapGeoJSONFeature, Map as MapLibreMap, PointLike } from "maplibre-gl";
import type { UnderPointer } from "../on-map/under-pointer.ts";
import type { RecordPlaces } from "./record-places.ts";
import { PLAN_TILE_LAYERS } from "./tile-layers.ts";
import { TILES_SOURCE } from "./tiled-style.ts";

/** Half the side in CSS pixels of the square around a click or tap in which a tree is still meant. */
const REACH_PX = 6;
const TREES = new Set<string>([PLAN_TILE_LAYERS.trees.name, PLAN_TILE_LAYERS.crowns.name]);
const ZONES = new Set<string>([
  PLAN_TILE_LAYERS.zones.name,
  PLAN_TILE_LAYERS.zoneBands.name,
  PLAN_TILE_LAYERS.zoneEdges.name,
  PLAN_TILE_LAYERS.zoneNames.name,
]);

/** What of a plan's tiles is at a point of the map: the tree whose mark or crown is nearest, else a zone, else null. */
export function underTiledPointer(
  map: MapLibreMap,
  { x, y }: { readonly x: number; readonly y: number },
): UnderPointer | null {
  const around: [PointLike, PointLike] = [
    [x - REACH_PX, y - REACH_PX],
    [x + REACH_PX, y + REACH_PX],
  ];
  let nearest: { readonly id: string; readonly px: number } | null = null;
  const found = map.queryRenderedFeatures(around).filter(({ source }) => source === TILES_SOURCE);
  for (const feature of found) {
    const id: unknown = feature.properties.tree;
    if (!TREES.has(feature.sourceLayer ?? "") || typeof id !== "string") continue;
    const at = map.project(middleOf(feature));
    const px = Math.hypot(at.x - x, at.y - y);
    if (nearest === null || px < nearest.px) nearest = { id, px };
  }
  if (nearest !== null) return { what: "tree", id: nearest.id };
  const zone: unknown = map
    .queryRenderedFeatures([x, y])
    .find(({ source, sourceLayer }) => source === TILES_SOURCE && ZONES.has(sourceLayer ?? ""))?.properties.zone;
  return typeof zone === "string" ? { what: "zone", id: zone } : null;
}

/** The middle of a feature's box in degrees: a mark's place, and near enough that of a crown. */
function middleOf({ geometry }: MapGeoJSONFeature): [number, number] {
  if (geometry.type === "Point") return geometry.coordinates as [number, number];
  const ring = geometry.type === "Polygon" ? geometry.coordinates[0]! : [];
  const lons = ring.map(([lonDeg = 0]) => lonDeg);
  const lats = ring.map(([, latDeg = 0]) => latDeg);
  return [(Math.min(...lons) + Math.max(...lons)) / 2, (Math.min(...lats) + Math.max(...lats)) / 2];
}

/** Where the records of trees are that meet a filter and whose tiles are loaded, by tree id. */
export function treePlacesOnMap(map: MapLibreMap, filter: FilterSpecification): ReadonlyMap<string, RecordPlaces> {
  const sourceLayer = PLAN_TILE_LAYERS.trees.name;
  if (map.getSource(TILES_SOURCE) === undefined) return new Map();
  const found = map.querySourceFeatures(TILES_SOURCE, { sourceLayer, filter });
  return new Map(found.map(({ properties }) => [properties.tree as string, properties as unknown as RecordPlaces]));
}
