import type { ConflictRecord, TreeSetting } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { Prescription, Visit } from "../model/prescription.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import type { Tree } from "../model/trees.ts";
import type { Zone } from "../model/zone.ts";
import type { DisplayUnits } from "../units/format-length.ts";

/** One stop of the walk through a zone: a visit with all that is known about its tree. */
export interface ZoneStop {
  /** Place in the order of work, from 1. */
  readonly number: number;
  readonly tree: Tree;
  readonly visit: Visit;
  readonly prescription: Prescription;
  readonly conflicts: readonly ConflictRecord[];
  readonly setting: TreeSetting | null;
  /** The feature each conflict is with, by conflict id, where the plan still has it. */
  readonly things: ReadonlyMap<string, SurroundingFeature>;
  readonly units: DisplayUnits;
}

/** The visits of a zone in order of work. Throws RangeError when the plan does not have one of them. */
export function zoneStops(plan: Plan, zone: Zone): ZoneStop[] {
  const wanted = new Set(zone.visitIds);
  const visits = new Map<string, { prescription: Prescription; visit: Visit }>();
  for (const prescription of plan.prescriptions) {
    for (const visit of prescription.visits) {
      if (wanted.has(visit.visitId)) visits.set(visit.visitId, { prescription, visit });
    }
  }
  const rows = new Set([...visits.values()].map(({ visit }) => visit.treeRow));
  const settings = new Map(
    plan.settings.flatMap((one) => (rows.has(one.treeRow) ? [[one.treeRow, one] as const] : [])),
  );
  const conflictsOf = new Map<number, ConflictRecord[]>();
  const thingKeys = new Set<string>();
  for (const conflict of plan.conflicts) {
    if (!rows.has(conflict.treeRow)) continue;
    thingKeys.add(thingKey(conflict.withLayer, conflict.withId));
    const list = conflictsOf.get(conflict.treeRow);
    if (list === undefined) conflictsOf.set(conflict.treeRow, [conflict]);
    else list.push(conflict);
  }
  const features = new Map<string, SurroundingFeature>();
  for (const feature of plan.surroundings) {
    const key = thingKey(feature.layer, feature.id);
    if (thingKeys.has(key)) features.set(key, feature);
  }
  return zone.visitIds.map((visitId, at) => {
    const found = visits.get(visitId);
    const tree = found === undefined ? undefined : plan.trees[found.visit.treeRow];
    if (found === undefined || tree === undefined) {
      throw new RangeError(
        `Expected visits of plan ${plan.planId} in zone ${zone.zoneId}, got "${visitId.slice(0, 80)}"`,
      );
    }
    const conflicts = conflictsOf.get(tree.row) ?? [];
    const things = new Map<string, SurroundingFeature>();
    for (const conflict of conflicts) {
      const thing = features.get(thingKey(conflict.withLayer, conflict.withId));
      if (thing !== undefined) things.set(conflict.conflictId, thing);
    }
    return {
      number: at + 1,
      tree,
      visit: found.visit,
      prescription: found.prescription,
      conflicts,
      setting: settings.get(tree.row) ?? null,
      things,
      units: plan.options.units,
    };
  });
}

const thingKey = (layer: string, id: string): string => `${layer}\n${id}`;
