import type { IndexedTree } from "../plan-index.ts";
import type { FilterCounts } from "./filter-chips.ts";

/** How many trees have each urgency, kind of conflict and crew; a tree counts once for each crew of its visits. */
export function countTrees(trees: readonly IndexedTree[]): FilterCounts {
  const urgencies = new Map<string, number>();
  const kinds = new Map<string, number>();
  const crews = new Map<string, number>();
  const add = (counts: Map<string, number>, key: string) => counts.set(key, (counts.get(key) ?? 0) + 1);
  for (const entry of trees) {
    add(urgencies, entry.prescription.urgency);
    for (const kind of entry.kinds) add(kinds, kind);
    for (const crew of new Set(entry.prescription.visits.map((visit) => visit.crew))) add(crews, crew);
  }
  return { urgencies, kinds, crews };
}
