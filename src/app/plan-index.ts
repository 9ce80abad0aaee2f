import type { ConflictRecord, TreeSetting } from "../core/model/conflict.ts";
import type { Plan } from "../core/model/plan.ts";
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

/** Indexes made ahead of need, until their plans are let go. */
const MADE = new WeakMap<OpenedPlan, PlanIndex>();

/**
 * Look-ups of a plan, built once when it is opened. `before` may be those of the same plan in another state: where only zones are others, only their trees
 * are looked at again.
 */
export function planIndex(opened: OpenedPlan, before: PlanIndex | null = null): PlanIndex {
  const made = MADE.get(opened);
  if (made !== undefined) return made;
  if (before !== null && hasSameTrees(before.opened.plan, opened.plan)) return rezonedIndex(before, opened);
  const building = new IndexBuilding(opened);
  for (let at = 0; at < building.count; at += 1) building.add(at);
  return building.end();
}

/** Builds the look-ups of a plan a few trees at a time, for {@link planIndex} to have them at once. */
export async function prepareIndex(opened: OpenedPlan, turn: () => Promise<void>): Promise<void> {
  const building = new IndexBuilding(opened);
  await turn();
  for (let at = 0; at < building.count; at += 1) {
    building.add(at);
    if (at % 256 === 255) await turn();
  }
  MADE.set(opened, building.end());
}

const hasSameTrees = (one: Plan, other: Plan): boolean =>
  one.trees === other.trees &&
  one.prescriptions === other.prescriptions &&
  one.conflicts === other.conflicts &&
  one.settings === other.settings;

/** The same trees in other zones. The order of the trees does not follow from zones. */
function rezonedIndex(before: PlanIndex, opened: OpenedPlan): PlanIndex {
  const zoneOf = zonesByTree(opened.plan.zones);
  const changed = new Map<string, IndexedTree>();
  for (const treeId of new Set([...zonesByTree(before.opened.plan.zones).keys(), ...zoneOf.keys()])) {
    const entry = before.treeById.get(treeId);
    const zone = zoneOf.get(treeId) ?? null;
    if (entry !== undefined && entry.zone !== zone) changed.set(treeId, { ...entry, zone });
  }
  const treeById = new Map(before.treeById);
  for (const [treeId, entry] of changed) treeById.set(treeId, entry);
  return {
    opened,
    trees: changed.size === 0 ? before.trees : before.trees.map((entry) => changed.get(entry.tree.id) ?? entry),
    treeById,
    zoneById: zonesById(opened.plan.zones),
  };
}

/** The zone of each tree: of those that name it the first. */
function zonesByTree(zones: readonly Zone[]): Map<string, Zone> {
  const zoneOf = new Map<string, Zone>();
  for (const zone of zones) for (const treeId of zone.treeIds) if (!zoneOf.has(treeId)) zoneOf.set(treeId, zone);
  return zoneOf;
}

const zonesById = (zones: readonly Zone[]): Map<string, Zone> => new Map(zones.map((zone) => [zone.zoneId, zone]));

/** The look-ups of a plan on the way. */
class IndexBuilding {
  readonly #opened: OpenedPlan;
  readonly #conflictsOf = new Map<string, ConflictRecord[]>();
  readonly #zoneOf: ReadonlyMap<string, Zone>;
  readonly #trees: IndexedTree[] = [];
  readonly #treeById = new Map<string, IndexedTree>();

  constructor(opened: OpenedPlan) {
    this.#opened = opened;
    this.#zoneOf = zonesByTree(opened.plan.zones);
    for (const conflict of opened.plan.conflicts) {
      const known = this.#conflictsOf.get(conflict.treeId);
      if (known === undefined) this.#conflictsOf.set(conflict.treeId, [conflict]);
      else known.push(conflict);
    }
  }

  get count(): number {
    return this.#opened.plan.prescriptions.length;
  }

  add(at: number): void {
    const { plan } = this.#opened;
    const prescription = plan.prescriptions[at]!;
    const tree = plan.trees[prescription.treeRow];
    if (tree === undefined) return;
    const conflicts = this.#conflictsOf.get(tree.id) ?? [];
    const entry: IndexedTree = {
      tree,
      prescription,
      conflicts,
      kinds: new Set<ConflictKind>(conflicts.map((conflict) => conflict.kind)),
      setting: plan.settings[prescription.treeRow] ?? null,
      zone: this.#zoneOf.get(tree.id) ?? null,
      urgency: prescription.urgency,
      overdue: prescription.overdue,
      work: prescription.visits.map(plannedWork),
      searched: [tree.id, tree.species, tree.commonName, tree.street, tree.address]
        .filter((text) => text !== null)
        .join("\n")
        .toLowerCase(),
    };
    this.#trees.push(entry);
    this.#treeById.set(tree.id, entry);
  }

  end(): PlanIndex {
    return {
      opened: this.#opened,
      trees: sortedTrees(this.#trees, "urgency"),
      treeById: this.#treeById,
      zoneById: zonesById(this.#opened.plan.zones),
    };
  }
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
