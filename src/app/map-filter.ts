import type { TreeFilter as MapFilter } from "../map/index.ts";
import type { IndexedTree, PlanIndex } from "./plan-index.ts";
import type { ViewController } from "./view-controller.ts";

/**
 * Which trees keep their marks on the map: at the zones those that are in one, in an open zone its own and the one looked at, else those that pass the filter;
 * null for all.
 */
export function mapFilter(
  index: PlanIndex,
  { view, zoneId, isAtZones }: Pick<ViewController, "view" | "zoneId" | "isAtZones">,
  shown: readonly IndexedTree[] | null,
): MapFilter | null {
  if (zoneId !== null) {
    // A tree picked beside the zone is shown whole too.
    const picked = view.name === "tree" ? [view.treeId] : [];
    return { treeIds: [...(index.zoneById.get(zoneId)?.treeIds ?? []), ...picked] };
  }
  if (isAtZones && view.name === "zones") return { zoneIds: [...index.zoneById.keys()] };
  return shown === null ? null : { treeIds: shown.map((entry) => entry.tree.id) };
}
