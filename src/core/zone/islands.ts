import { planesAcross, toPlane } from "../plane/plane.ts";
import type { Stop } from "./stops.ts";

/**
 * Stops parted into islands: two stops are in one island when steps of at most about `linkM` lead from one to the other over stops. Islands in the
 * order of their first stops, each in input order. A stop far from all others is an island alone and changes no other.
 *
 * Stops in one cell of side `linkM / sqrt(2)` are linked without measuring, so the work grows with the number of cells.
 */
export function islandsOf(stops: readonly Stop[], linkM: number): Stop[][] {
  const parent = Int32Array.from(stops, (_, at) => at);
  const cellM = linkM / Math.SQRT2;
  const cells = new Map<string, { plane: number; column: number; row: number; members: number[]; xy: number[] }>();
  stops.forEach(({ tree }, at) => {
    for (const plane of planesAcross(tree.lonDeg, tree.lonDeg, tree.latDeg, linkM)) {
      const [xM, yM] = toPlane(plane, tree.lonDeg, tree.latDeg);
      const [column, row] = [Math.floor(xM / cellM), Math.floor(yM / cellM)];
      const key = cellKey(plane, column, row);
      const cell = cells.get(key);
      if (cell === undefined) cells.set(key, { plane, column, row, members: [at], xy: [xM, yM] });
      else {
        union(parent, cell.members[0]!, at);
        cell.members.push(at);
        cell.xy.push(xM, yM);
      }
    }
  });
  for (const cell of cells.values()) {
    for (let dColumn = 0; dColumn <= 2; dColumn += 1) {
      for (let dRow = dColumn === 0 ? 1 : -2; dRow <= 2; dRow += 1) {
        const other = cells.get(cellKey(cell.plane, cell.column + dColumn, cell.row + dRow));
        if (other === undefined || root(parent, cell.members[0]!) === root(parent, other.members[0]!)) continue;
        if (areLinked(cell.xy, other.xy, linkM)) union(parent, cell.members[0]!, other.members[0]!);
      }
    }
  }
  const islands = new Map<number, Stop[]>();
  stops.forEach((stop, at) => {
    const key = root(parent, at);
    const island = islands.get(key);
    if (island === undefined) islands.set(key, [stop]);
    else island.push(stop);
  });
  return [...islands.values()];
}

const cellKey = (plane: number, column: number, row: number): string => `${plane} ${column} ${row}`;

function areLinked(a: readonly number[], b: readonly number[], linkM: number): boolean {
  for (let i = 0; i < a.length; i += 2) {
    for (let j = 0; j < b.length; j += 2) {
      if ((a[i]! - b[j]!) ** 2 + (a[i + 1]! - b[j + 1]!) ** 2 <= linkM * linkM) return true;
    }
  }
  return false;
}

function root(parent: Int32Array, at: number): number {
  let top = at;
  while (parent[top] !== top) {
    parent[top] = parent[parent[top]!]!;
    top = parent[top]!;
  }
  return top;
}

function union(parent: Int32Array, a: number, b: number): void {
  const [rootA, rootB] = [root(parent, a), root(parent, b)];
  if (rootA !== rootB) parent[Math.max(rootA, rootB)] = Math.min(rootA, rootB);
}
