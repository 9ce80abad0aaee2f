import type { ConflictRecord } from "../../core/model/conflict.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import { boughProperties } from "../../core/plan/bough-properties.ts";
import type { GeoJsonRead } from "../geojson/geojson-read.ts";
import { spliceFeatures } from "../geojson/splice-features.ts";

/** `trees.geojson` in chunks: the original bytes of every tree of the plan, with its `bough_` members added or renewed. */
export function treesFile(reads: readonly GeoJsonRead[], plan: Plan): Iterable<Uint8Array> {
  const rowOfOrdinal = new Map(plan.trees.map((tree, row) => [tree.ordinal, row]));
  const conflictsOf = conflictsByRow(plan);
  const zoneOf = zoneByTree(plan);
  return spliceFeatures(reads, (feature) => {
    const row = rowOfOrdinal.get(feature.ordinal);
    if (row === undefined) return null;
    const tree = plan.trees[row]!;
    const members = boughProperties(
      tree,
      plan.prescriptions[row]!,
      conflictsOf.get(row) ?? [],
      plan.settings[row]!,
      zoneOf.get(tree.id) ?? null,
    );
    return new Map(Object.entries(members));
  });
}

function conflictsByRow(plan: Plan): Map<number, ConflictRecord[]> {
  const byRow = new Map<number, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    const list = byRow.get(conflict.treeRow);
    if (list === undefined) byRow.set(conflict.treeRow, [conflict]);
    else list.push(conflict);
  }
  return byRow;
}

function zoneByTree(plan: Plan): Map<string, Zone> {
  return new Map(plan.zones.flatMap((zone) => zone.treeIds.map((treeId) => [treeId, zone] as const)));
}
