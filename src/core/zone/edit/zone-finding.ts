import type { ZoneEditFinding, ZoneMend } from "./zone-edit-result.ts";

/** A finding about an edit; concerns no zone, no tree and offers nothing where left out. */
export function zoneFinding(
  said: Pick<ZoneEditFinding, "code" | "severity" | "reason" | "whatToDo"> & {
    readonly zoneId?: string | null;
    readonly treeIds?: readonly string[];
    readonly value?: string;
    readonly mends?: readonly ZoneMend[];
  },
): ZoneEditFinding {
  const { zoneId = null, treeIds = [], mends = [] } = said;
  return {
    code: said.code,
    severity: said.severity,
    layer: "plan",
    file: null,
    feature: zoneId ?? treeIds[0] ?? null,
    field: null,
    value: said.value?.slice(0, 256) ?? null,
    reason: said.reason,
    whatToDo: said.whatToDo,
    zoneId,
    treeIds,
    mends,
  };
}

/** `1 tree`, `2 trees`, and to three of them their ids. */
export function treesText(treeIds: readonly string[]): string {
  const count = treeIds.length === 1 ? "1 tree" : `${treeIds.length} trees`;
  return treeIds.length > 3 || treeIds.length === 0 ? count : `${count} (${treeIds.join(", ")})`;
}

/** `is` or `are`. */
export const isOrAre = (treeIds: readonly string[]): string => (treeIds.length === 1 ? "is" : "are");
