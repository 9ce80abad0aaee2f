import { HABITS } from "./terms.ts";
import type { Tree } from "./trees.ts";

/**
 * The crown columns of a list of trees, for the loops that visit every tree: one typed array a figure, rows in input order.
 * Everything else about a tree stays on its `Tree`.
 */
export interface TreeTable {
  readonly trees: readonly Tree[];
  readonly lonDeg: Float64Array;
  readonly latDeg: Float64Array;
  readonly heightM: Float64Array;
  readonly crownBaseM: Float64Array;
  /** Four radii a tree: north, east, south, west. */
  readonly radiiM: Float64Array;
  /** Largest of the four, upper end of its 90 % interval. */
  readonly reachM: Float64Array;
  /** Index into `HABITS`. */
  readonly habit: Uint8Array;
}

/** Columns of the given trees; keeps the list itself, does not copy the trees. */
export function treeTable(trees: readonly Tree[]): TreeTable {
  const count = trees.length;
  const table = {
    trees,
    lonDeg: new Float64Array(count),
    latDeg: new Float64Array(count),
    heightM: new Float64Array(count),
    crownBaseM: new Float64Array(count),
    radiiM: new Float64Array(count * 4),
    reachM: new Float64Array(count),
    habit: new Uint8Array(count),
  };
  for (let row = 0; row < count; row += 1) {
    const tree = trees[row]!;
    const { northM, eastM, southM, westM } = tree.radii;
    table.lonDeg[row] = tree.lonDeg;
    table.latDeg[row] = tree.latDeg;
    table.heightM[row] = tree.height.valueM;
    table.crownBaseM[row] = tree.crownBase.valueM;
    table.radiiM.set([northM, eastM, southM, westM], row * 4);
    const widest = Math.max(northM, eastM, southM, westM);
    table.reachM[row] = tree.radius.valueM > 0 ? (widest * tree.radius.highM) / tree.radius.valueM : widest;
    table.habit[row] = HABITS.indexOf(tree.habit);
  }
  return table;
}
