import { speciesName, type TreeEntry } from "../tree-filter.ts";

/** How many trees of the plan have each value; only values that occur are offered. */
export interface FilterCounts {
  readonly urgencies: ReadonlyMap<string, number>;
  readonly kinds: ReadonlyMap<string, number>;
  readonly crews: ReadonlyMap<string, number>;
  readonly streets: ReadonlyMap<string, number>;
  readonly species: ReadonlyMap<string, number>;
  /** Owners or jurisdictions as the inventory names them. */
  readonly owners: ReadonlyMap<string, number>;
  /** Protected trees. */
  readonly isProtected: number;
}

export const NO_COUNTS: FilterCounts = {
  urgencies: new Map(),
  kinds: new Map(),
  crews: new Map(),
  streets: new Map(),
  species: new Map(),
  owners: new Map(),
  isProtected: 0,
};

/** How many trees have each urgency, kind of conflict, crew, street, species and owner, and how many are protected; a tree counts once for each crew of its visits to come. */
export function countTrees(trees: readonly TreeEntry[]): FilterCounts {
  const urgencies = new Map<string, number>();
  const kinds = new Map<string, number>();
  const crews = new Map<string, number>();
  const streets = new Map<string, number>();
  const species = new Map<string, number>();
  const owners = new Map<string, number>();
  let isProtected = 0;
  const add = (counts: Map<string, number>, key: string | null) => {
    if (key !== null) counts.set(key, (counts.get(key) ?? 0) + 1);
  };
  for (const entry of trees) {
    add(urgencies, entry.urgency);
    add(streets, entry.tree.street);
    add(species, speciesName(entry.tree));
    add(owners, entry.tree.owner);
    if (entry.tree.isProtected) isProtected += 1;
    for (const kind of entry.kinds) add(kinds, kind);
    for (const crew of new Set(entry.work.filter(({ isDone }) => !isDone).map(({ crew }) => crew))) add(crews, crew);
  }
  return { urgencies, kinds, crews, streets, species, owners, isProtected };
}
