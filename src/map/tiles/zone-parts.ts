import type { Feature } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { Tree } from "../../core/model/trees.ts";
import type { WorldBox } from "../../formats/tiles/world-place.ts";
import { zoneBands } from "../features/zone-bands.ts";
import { zoneAreas, zoneEdges, zoneNames } from "../features/zone-features.ts";
import { wordsWith } from "../words.ts";
import { boxOf, type TreePlaces } from "./plan-places.ts";

/** A feature and its box on the map. */
export interface PlacedFeature {
  readonly feature: Feature;
  readonly box: WorldBox;
}

/** What is drawn of a plan's zones, by the layers of its tiles, with the names in English. */
export function zoneParts(frame: Plan, { rowOf, lonDeg, latDeg }: TreePlaces) {
  const words = wordsWith(undefined);
  const ids = new Set(frame.zones.flatMap(({ treeIds }) => treeIds));
  // Bands ask of a tree only where it stands.
  const trees = [...ids].flatMap((id) => {
    const row = rowOf.get(id);
    return row === undefined ? [] : [{ id, lonDeg: lonDeg[row]!, latDeg: latDeg[row]! } as Tree];
  });
  const placed = (features: readonly Feature[]): PlacedFeature[] =>
    features.map((feature) => ({ feature, box: boxOf(feature.geometry) }));
  return {
    zones: placed(zoneAreas(frame).features),
    zoneBands: placed(zoneBands({ ...frame, trees }, words).features),
    zoneEdges: placed(zoneEdges(frame).features),
    zoneNames: placed(zoneNames(frame, words).features),
  };
}
