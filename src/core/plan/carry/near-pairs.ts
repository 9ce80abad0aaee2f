import type { ComparedTree } from "./like-tree.ts";

/** Length of a degree of latitude on a sphere of 6,371 km; its half percent of error is nothing at a few meters. */
const METERS_PER_DEGREE = 111_195;

/** Meters east and north from one tree to another. Near the same place only: the ground between is taken as flat. */
export function offsetM(from: ComparedTree, to: ComparedTree): { eastM: number; northM: number } {
  const scale = Math.cos((from.latDeg * Math.PI) / 180);
  return {
    eastM: (to.lonDeg - from.lonDeg) * METERS_PER_DEGREE * scale,
    northM: (to.latDeg - from.latDeg) * METERS_PER_DEGREE,
  };
}

/** Meters between two trees, `shift` taken off the second. */
export function distanceM(from: ComparedTree, to: ComparedTree, shift: Shift): number {
  const { eastM, northM } = offsetM(from, to);
  return Math.hypot(eastM - shift.eastM, northM - shift.northM);
}

/** Meters east and north by which the later inventory lies off the earlier one. */
export interface Shift {
  readonly eastM: number;
  readonly northM: number;
}

/** One old and one new tree that stand near each other. */
export interface NearPair {
  readonly oldRow: number;
  readonly newRow: number;
  readonly distanceM: number;
}

/** All pairs of given old and new rows within `reachM` of each other, in the order of the old rows and then the new ones. Nobody is looked for across 180°. */
export function nearPairs(
  old: readonly ComparedTree[],
  oldRows: readonly number[],
  now: readonly ComparedTree[],
  newRows: readonly number[],
  reachM: number,
  shift: Shift,
): NearPair[] {
  const squares = new Map<string, number[]>();
  const latStepDeg = reachM / METERS_PER_DEGREE;
  const rowOf = (latDeg: number): number => Math.floor(latDeg / latStepDeg);
  // A row of squares is as wide as the parallel of its own middle says, so that neighbors agree where squares begin.
  const columnOf = (lonDeg: number, row: number): number => {
    const scale = Math.max(0.01, Math.cos(((row + 0.5) * latStepDeg * Math.PI) / 180));
    return Math.floor((lonDeg * METERS_PER_DEGREE * scale) / reachM);
  };
  for (const newRow of newRows) {
    const { lonDeg, latDeg } = now[newRow]!;
    const key = `${rowOf(latDeg)},${columnOf(lonDeg, rowOf(latDeg))}`;
    const square = squares.get(key);
    if (square === undefined) squares.set(key, [newRow]);
    else square.push(newRow);
  }
  const pairs: NearPair[] = [];
  for (const oldRow of oldRows) {
    const tree = old[oldRow]!;
    const scale = Math.max(0.01, Math.cos((tree.latDeg * Math.PI) / 180));
    const latDeg = tree.latDeg + shift.northM / METERS_PER_DEGREE;
    const lonDeg = tree.lonDeg + shift.eastM / (METERS_PER_DEGREE * scale);
    const near: NearPair[] = [];
    const middle = rowOf(latDeg);
    for (let row = middle - 1; row <= middle + 1; row += 1) {
      const column = columnOf(lonDeg, row);
      for (let beside = column - 1; beside <= column + 1; beside += 1) {
        for (const newRow of squares.get(`${row},${beside}`) ?? []) {
          const apartM = distanceM(tree, now[newRow]!, shift);
          if (apartM <= reachM) near.push({ oldRow, newRow, distanceM: apartM });
        }
      }
    }
    pairs.push(...near.sort((a, b) => a.newRow - b.newRow));
  }
  return pairs;
}
