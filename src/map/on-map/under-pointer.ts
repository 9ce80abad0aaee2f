import type { Map as MapLibreMap, MapMouseEvent } from "maplibre-gl";
import type { Tree } from "../../core/model/trees.ts";

/** Half the side in CSS pixels of the square around a click or tap in which a tree is still meant. */
const REACH_PX = 6;
const TREE_LAYERS = [
  "boughline-marks",
  "boughline-far-marks",
  "boughline-tree-dots",
  "boughline-crowns",
  "boughline-solid-crowns",
];
const ZONE_LAYERS = [
  "boughline-zone-titles",
  "boughline-zone-names",
  "boughline-zone-edges",
  "boughline-zones",
  "boughline-zone-bands",
];

/** What of a plan is at a point of the map. */
export interface UnderPointer {
  readonly what: "tree" | "zone";
  readonly id: string;
}

/** The tree at a point, else the zone there, else null. */
export function underPointer(
  map: MapLibreMap,
  event: MapMouseEvent,
  treeOf: ReadonlyMap<string, Tree>,
): UnderPointer | null {
  const treeId = treeAt(map, event, treeOf);
  if (treeId !== null) return { what: "tree", id: treeId };
  const zoneId = zoneAt(map, event);
  return zoneId === null ? null : { what: "zone", id: zoneId };
}

/** The tree at a point: the one whose trunk is nearest among those under it. */
function treeAt(map: MapLibreMap, event: MapMouseEvent, treeOf: ReadonlyMap<string, Tree>): string | null {
  const { x, y } = event.point;
  const layers = present(map, TREE_LAYERS);
  if (layers.length === 0) return null;
  const found = map.queryRenderedFeatures(
    [
      [x - REACH_PX, y - REACH_PX],
      [x + REACH_PX, y + REACH_PX],
    ],
    { layers },
  );
  let nearest: string | null = null;
  let nearestPx = Number.POSITIVE_INFINITY;
  for (const feature of found) {
    const treeId: unknown = feature.properties.tree;
    const tree = typeof treeId === "string" ? treeOf.get(treeId) : undefined;
    if (tree === undefined) continue;
    const at = map.project([tree.lonDeg, tree.latDeg]);
    const distancePx = Math.hypot(at.x - x, at.y - y);
    if (distancePx < nearestPx) {
      nearest = tree.id;
      nearestPx = distancePx;
    }
  }
  return nearest;
}

function zoneAt(map: MapLibreMap, event: MapMouseEvent): string | null {
  const layers = present(map, ZONE_LAYERS);
  if (layers.length === 0) return null;
  const value: unknown = map.queryRenderedFeatures(event.point, { layers })[0]?.properties.zone;
  return typeof value === "string" ? value : null;
}

const present = (map: MapLibreMap, ids: readonly string[]): string[] =>
  ids.filter((id) => map.getLayer(id) !== undefined);
