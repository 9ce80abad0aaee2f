/** One old and one new tree that may be the same, and what speaks against it; lower is better. */
export interface WeighedPair {
  readonly oldRow: number;
  readonly newRow: number;
  readonly cost: number;
}

/** Clusters with more trees than this on a side are settled by the cheapest pair first; smaller ones exactly. An exact answer costs its cube. */
const MOST_EXACT = 150;

/**
 * The pairs of which every tree is in one at most, chosen so that no tree takes another's place: in each cluster the choice is taken that is cheapest in
 * sum, where an old tree that stays alone costs `aloneCost`, which is at least every pair's (the assignment problem, Kuhn 1955). So a row is not moved on
 * by one to give a home to the tree at its end. Deterministic; ties go to the earlier trees. In the order of the old rows.
 */
export function assignPairs(pairs: readonly WeighedPair[], aloneCost: number): WeighedPair[] {
  return clustersOf(pairs)
    .flatMap((cluster) => assignCluster(cluster, aloneCost))
    .sort((a, b) => a.oldRow - b.oldRow);
}

/** Pairs that hang together by a tree they share. */
function clustersOf(pairs: readonly WeighedPair[]): WeighedPair[][] {
  const parent = new Map<string, string>();
  const rootOf = (key: string): string => {
    let root = key;
    while (parent.has(root)) root = parent.get(root)!;
    for (let at = key; at !== root; ) {
      const next = parent.get(at)!;
      parent.set(at, root);
      at = next;
    }
    return root;
  };
  for (const { oldRow, newRow } of pairs) {
    const [a, b] = [rootOf(`o${oldRow}`), rootOf(`n${newRow}`)];
    if (a !== b) parent.set(b, a);
  }
  const clusters = new Map<string, WeighedPair[]>();
  for (const pair of pairs) {
    const root = rootOf(`o${pair.oldRow}`);
    const own = clusters.get(root);
    if (own === undefined) clusters.set(root, [pair]);
    else own.push(pair);
  }
  return [...clusters.values()];
}

function assignCluster(pairs: readonly WeighedPair[], aloneCost: number): WeighedPair[] {
  if (pairs.length === 1) return [...pairs];
  const oldRows = [...new Set(pairs.map(({ oldRow }) => oldRow))].sort((a, b) => a - b);
  const newRows = [...new Set(pairs.map(({ newRow }) => newRow))].sort((a, b) => a - b);
  return Math.max(oldRows.length, newRows.length) > MOST_EXACT
    ? cheapestFirst(pairs)
    : cheapestTogether(pairs, oldRows, newRows, aloneCost);
}

function cheapestFirst(pairs: readonly WeighedPair[]): WeighedPair[] {
  const [usedOld, usedNew] = [new Set<number>(), new Set<number>()];
  return [...pairs]
    .sort((a, b) => a.cost - b.cost || a.oldRow - b.oldRow || a.newRow - b.newRow)
    .filter(({ oldRow, newRow }) => {
      if (usedOld.has(oldRow) || usedNew.has(newRow)) return false;
      usedOld.add(oldRow);
      usedNew.add(newRow);
      return true;
    });
}

/** Shortest augmenting paths with potentials. */
function cheapestTogether(
  pairs: readonly WeighedPair[],
  oldRows: readonly number[],
  newRows: readonly number[],
  aloneCost: number,
): WeighedPair[] {
  // A column of its own for every old tree lets it stay alone.
  const columns = newRows.length + oldRows.length;
  const columnOf = new Map(newRows.map((row, at) => [row, at]));
  const rowOf = new Map(oldRows.map((row, at) => [row, at]));
  const costs = oldRows.map(() => new Float64Array(columns).fill(Infinity));
  const pairAt = new Map<number, WeighedPair>();
  for (const pair of pairs) {
    const [row, column] = [rowOf.get(pair.oldRow)!, columnOf.get(pair.newRow)!];
    costs[row]![column] = pair.cost;
    pairAt.set(row * columns + column, pair);
  }
  for (let row = 0; row < oldRows.length; row += 1) costs[row]![newRows.length + row] = aloneCost;
  const ownerOf = new Int32Array(columns).fill(-1);
  const rowPotential = new Float64Array(oldRows.length);
  const columnPotential = new Float64Array(columns);
  for (let start = 0; start < oldRows.length; start += 1) {
    const best = new Float64Array(columns).fill(Infinity);
    const cameFrom = new Int32Array(columns).fill(-1);
    const isDone = new Uint8Array(columns);
    let row = start;
    let at = -1;
    for (;;) {
      let next = -1;
      for (let column = 0; column < columns; column += 1) {
        if (isDone[column] === 1) continue;
        const cost = costs[row]![column]! - rowPotential[row]! - columnPotential[column]!;
        const reached = cost + (at === -1 ? 0 : best[at]!);
        if (reached < best[column]!) {
          best[column] = reached;
          cameFrom[column] = at;
        }
        if (next === -1 || best[column]! < best[next]!) next = column;
      }
      at = next;
      isDone[at] = 1;
      if (ownerOf[at] === -1) break;
      row = ownerOf[at]!;
    }
    const total = best[at]!;
    rowPotential[start] = rowPotential[start]! + total;
    for (let column = 0; column < columns; column += 1) {
      if (isDone[column] !== 1 || column === at) continue;
      const owner = ownerOf[column]!;
      rowPotential[owner] = rowPotential[owner]! + total - best[column]!;
      columnPotential[column] = columnPotential[column]! + best[column]! - total;
    }
    while (at !== -1) {
      const before = cameFrom[at]!;
      ownerOf[at] = before === -1 ? start : ownerOf[before]!;
      at = before;
    }
  }
  const chosen: WeighedPair[] = [];
  for (let column = 0; column < newRows.length; column += 1) {
    const row = ownerOf[column]!;
    if (row !== -1) chosen.push(pairAt.get(row * columns + column)!);
  }
  return chosen;
}
