import type { ConflictRecord } from "../../core/model/conflict.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { ZonedTree } from "./tree-zone.ts";

/** Trees of a plan by their ids, in that order, with what their marks show and the zone each is in. Unknown ids are left out. */
export function markedTrees({ plan }: OpenedPlan, treeIds: readonly string[]): ZonedTree[] {
  const wanted = new Set(treeIds);
  const zoneOf = new Map(plan.zones.flatMap((zone) => zone.treeIds.map((treeId) => [treeId, zone] as const)));
  const conflictsOf = new Map<string, ConflictRecord[]>(treeIds.map((treeId) => [treeId, []]));
  for (const conflict of plan.conflicts) conflictsOf.get(conflict.treeId)?.push(conflict);
  const found = new Map<string, ZonedTree>();
  for (const prescription of plan.prescriptions) {
    const tree = plan.trees[prescription.treeRow];
    if (tree === undefined || !wanted.has(tree.id)) continue;
    const conflicts = conflictsOf.get(tree.id) ?? [];
    const zone = zoneOf.get(tree.id) ?? null;
    found.set(tree.id, { tree, prescription, urgency: prescription.urgency, conflicts, zone });
  }
  return treeIds.flatMap((treeId) => found.get(treeId) ?? []);
}
