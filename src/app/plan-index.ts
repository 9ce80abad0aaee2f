import type { ConflictRecord, TreeSetting } from "../core/model/conflict.ts";
import type { Visit } from "../core/model/prescription.ts";
import type { ConflictKind } from "../core/model/terms.ts";
import type { Zone } from "../core/model/zone.ts";
import type { OpenedPlan } from "../formats/plan/open-plan.ts";
import { sortedTrees } from "./sheet/sorted-trees.ts";
import type { TreeEntry, WorkItem } from "./tree-filter.ts";

/** One tree with everything the page shows of it. */
export interface IndexedTree extends TreeEntry {
  readonly conflicts: readonly ConflictRecord[];
  readonly setting: TreeSetting | null;
  readonly zone: Zone | null;
}

/** An opened plan with look-ups by tree and zone. */
export interface PlanIndex {
  readonly opened: OpenedPlan;
  /** Most urgent first, then earliest due, then in input order; trees without a visit last within their urgency. */
  readonly trees: readonly IndexedTree[];
  readonly treeById: ReadonlyMap<string, IndexedTree>;
  readonly zoneById: ReadonlyMap<string, Zone>;
}

/** Look-ups of a plan, built once when it is opened. */
export function planIndex(opened: OpenedPlan): PlanIndex {
  const { plan } = opened;
  const conflictsOf = new Map<string, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    const known = conflictsOf.get(conflict.treeId);
    if (known === undefined) conflictsOf.set(conflict.treeId, [conflict]);
    else known.push(conflict);
  }
  const zoneOf = new Map<string, Zone>();
  for (const zone of plan.zones) for (const treeId of zone.treeIds) if (!zoneOf.has(treeId)) zoneOf.set(treeId, zone);

  const trees: IndexedTree[] = [];
  for (const prescription of plan.prescriptions) {
    const tree = plan.trees[prescription.treeRow];
    if (tree === undefined) continue;
    const conflicts = conflictsOf.get(tree.id) ?? [];
    trees.push({
      tree,
      prescription,
      conflicts,
      kinds: new Set<ConflictKind>(conflicts.map((conflict) => conflict.kind)),
      setting: plan.settings[prescription.treeRow] ?? null,
      zone: zoneOf.get(tree.id) ?? null,
      urgency: prescription.urgency,
      overdue: prescription.overdue,
      work: prescription.visits.map(plannedWork),
      searched: [tree.id, tree.species, tree.commonName, tree.street, tree.address]
        .filter((text) => text !== null)
        .join("\n")
        .toLowerCase(),
    });
  }
  return {
    opened,
    trees: sortedTrees(trees, "urgency"),
    treeById: new Map(trees.map((entry) => [entry.tree.id, entry])),
    zoneById: new Map(plan.zones.map((zone) => [zone.zoneId, zone])),
  };
}

/** A visit of the plan that is not done. */
export const plannedWork = (visit: Visit): WorkItem => ({
  cause: "planned",
  due: visit.due,
  crew: visit.crew,
  hours: visit.hours,
  doseShare: visit.doseShare,
  urgency: visit.urgency,
  overdue: visit.overdue,
  isDone: false,
  visit,
});
