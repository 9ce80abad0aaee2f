import type { GeoJSONFeatureDiff } from "maplibre-gl";
import type { TreeMark } from "../features/tree-marks.ts";

/** The members that changed, of the marks that changed, as the map takes them; null when so much did that all had better be set anew. */
export type MarkChanges = readonly GeoJSONFeatureDiff[] | null;

/** Most marks changed one by one. */
const MOST_CHANGES = 20_000;

/** What is to be changed in marks that stand on a map to make them others of the same trees. */
export function markChanges(before: readonly TreeMark[], after: readonly TreeMark[]): MarkChanges {
  if (before.length !== after.length) return null;
  const changes: GeoJSONFeatureDiff[] = [];
  for (const [row, mark] of after.entries()) {
    const old = before[row]!;
    if (old === mark) continue;
    const members: { key: string; value: unknown }[] = [];
    for (const key of Object.keys(mark) as (keyof TreeMark)[]) {
      if (mark[key] !== old[key]) members.push({ key, value: mark[key] });
    }
    if (members.length > 0) changes.push({ id: mark.tree, addOrUpdateProperties: members });
    if (changes.length > MOST_CHANGES) return null;
  }
  return changes;
}
