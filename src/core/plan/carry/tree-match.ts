import type { Identity } from "../../model/plan-change.ts";

/** A tree of one inventory beside the tree of another. Rows are those of the two lists of trees. */
export interface TreeMatch {
  /** Null for a tree that is new. */
  readonly oldRow: number | null;
  /** Null for a tree that was removed. */
  readonly newRow: number | null;
  readonly identity: Identity;
  /** Meters between both positions, a shift common to all trees taken off; null where there is but one. */
  readonly distanceM: number | null;
  /** Why somebody should have a look, one plain sentence; null where nothing speaks against it. */
  readonly doubt: string | null;
}

/** Two inventories compared. */
export interface TreeMatches {
  /** In the order of the new trees, then the removed ones in the order of the old trees. */
  readonly all: readonly TreeMatch[];
  /** Row of the old tree that a new one is, by the new one's row; replanted trees are not among them. */
  readonly oldRowOf: ReadonlyMap<number, number>;
  /** By how much new stems must be multiplied to be in the unit of the old ones; 1 where both are in one unit. */
  readonly stemFactor: number;
  /** Meters east and north by which most trees were shifted alike; null where they were not. */
  readonly shift: { readonly eastM: number; readonly northM: number } | null;
}

/** Whether both rows of a match are one tree, whose history goes on. */
export const isSameTree = ({ identity }: TreeMatch): boolean =>
  identity === "matched" || identity === "moved" || identity === "renumbered";
