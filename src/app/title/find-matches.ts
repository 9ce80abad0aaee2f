import type { PlanIndex } from "../plan-index.ts";

/** One line under the search field. */
export type Match =
  | { readonly type: "tree"; readonly treeId: string; readonly detail: string }
  | { readonly type: "species" | "street"; readonly text: string; readonly trees: number };

const MOST_OF_A_KIND = 4;

/** Trees, species and streets that begin with or contain a text, in any case; beginnings first. Nothing for an empty text. */
export function findMatches(index: PlanIndex, typed: string): Match[] {
  const text = typed.trim().slice(0, 100).toLowerCase();
  if (text === "") return [];
  const streets = new Map<string, number>();
  const species = new Map<string, number>();
  const ids: { treeId: string; detail: string }[] = [];
  for (const { tree } of index.trees) {
    if (tree.street?.toLowerCase().includes(text)) streets.set(tree.street, (streets.get(tree.street) ?? 0) + 1);
    for (const name of [tree.species, tree.commonName]) {
      if (name?.toLowerCase().includes(text)) species.set(name, (species.get(name) ?? 0) + 1);
    }
    if (tree.id.toLowerCase().includes(text)) {
      ids.push({ treeId: tree.id, detail: tree.commonName ?? tree.species ?? "species unknown" });
    }
  }
  const best = <T>(items: T[], textOf: (item: T) => string): T[] =>
    items
      .map((item, place) => ({ item, place, late: textOf(item).toLowerCase().startsWith(text) ? 0 : 1 }))
      .sort((one, other) => one.late - other.late || one.place - other.place)
      .slice(0, MOST_OF_A_KIND)
      .map(({ item }) => item);
  const byCount = (counts: Map<string, number>) =>
    best(
      [...counts].sort(([, one], [, other]) => other - one),
      ([name]) => name,
    );
  return [
    ...best(ids, (one) => one.treeId).map((one) => ({ type: "tree" as const, ...one })),
    ...byCount(species).map(([name, trees]) => ({ type: "species" as const, text: name, trees })),
    ...byCount(streets).map(([name, trees]) => ({ type: "street" as const, text: name, trees })),
  ];
}
