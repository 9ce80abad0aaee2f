import type { TreeChange } from "../../model/plan-change.ts";
import { type FlatValue, rounded } from "../bough-properties.ts";
import type { Table } from "../plan-tables.ts";

/** Columns of `changes.csv`, which are the members of a feature of `changes.geojson` too. */
const MEMBERS: readonly (readonly [name: string, value: (change: TreeChange) => FlatValue])[] = [
  ["tree", ({ treeId }) => treeId],
  ["formerly", ({ formerly }) => formerly],
  ["identity", ({ identity }) => identity],
  ["moved_m", ({ movedM }) => (movedM === null ? null : rounded(movedM, 2))],
  ["cause", ({ cause }) => cause],
  ["what", ({ aspects }) => aspects.join(",")],
  ["detail", ({ detail }) => detail],
  ["urgency_before", ({ before }) => before?.urgency ?? null],
  ["urgency_now", ({ now }) => now?.urgency ?? null],
  ["refer_before", ({ before }) => before?.refer ?? null],
  ["refer_now", ({ now }) => now?.refer ?? null],
  ["conflicts_before", ({ before }) => before?.conflictIds.length ?? null],
  ["conflicts_now", ({ now }) => now?.conflictIds.length ?? null],
  ["conflicts_new", ({ before, now }) => listOf(now?.conflictIds, before?.conflictIds)],
  ["conflicts_ended", ({ before, now }) => listOf(before?.conflictIds, now?.conflictIds)],
  ["remedy_before", ({ before }) => before?.remedy ?? null],
  ["remedy_now", ({ now }) => now?.remedy ?? null],
  ["dose_pct_before", ({ before }) => before?.dosePct ?? null],
  ["dose_pct_now", ({ now }) => now?.dosePct ?? null],
  ["due_before", ({ before }) => before?.due ?? null],
  ["due_now", ({ now }) => now?.due ?? null],
  ["overdue_now", ({ now }) => now?.overdue ?? null],
];

/** Conflicts that one list has beyond the other; null where both say nothing. */
function listOf(own: readonly string[] | undefined, other: readonly string[] | undefined): string | null {
  if (own === undefined) return null;
  const rest = own.filter((id) => !(other ?? []).includes(id));
  return rest.length === 0 ? null : rest.join(", ");
}

/** One row a tree that is another than before or planned otherwise. */
export const changeTable = (changes: readonly TreeChange[]): Table => ({
  header: MEMBERS.map(([name]) => name),
  rows: changes.map((change) => MEMBERS.map(([, value]) => value(change))),
});

/** The same as points; a removed tree stands where it stood. */
export const changeFeatures = (changes: readonly TreeChange[]) => ({
  type: "FeatureCollection" as const,
  features: changes.map((change) => ({
    type: "Feature" as const,
    geometry: { type: "Point" as const, coordinates: [rounded(change.lonDeg, 8), rounded(change.latDeg, 8)] },
    properties: Object.fromEntries(MEMBERS.map(([name, value]) => [name, value(change)])),
  })),
});
