import type { Point } from "geojson";
import type { SourceFeature } from "../model/feature.ts";
import type { FindingLog } from "./finding-log.ts";

/** Trunks nearer than this are taken for one tree entered twice: two would have grown into each other. Our policy. */
const SAME_TREE_M = 0.3;
/** Length of a degree of latitude on a sphere of 6,371 km; its half percent of error is nothing at 0.3 m. */
const METERS_PER_DEGREE = 111_195;

interface Placed {
  readonly id: string;
  readonly lonDeg: number;
  readonly latDeg: number;
}

/** Notes trees that stand on or within 0.3 m of an earlier one; all are kept. */
export interface NearPlaces {
  readonly note: (feature: SourceFeature<Point>, tree: Placed, log: FindingLog) => void;
}

/** No trees yet. They are kept in squares about 0.3 m wide, so that only neighbors are compared; nobody is looked for across 180°. */
export function nearPlaces(): NearPlaces {
  const squares = new Map<number, Placed[]>();
  return {
    note(feature, tree, log) {
      const row = Math.floor((tree.latDeg * METERS_PER_DEGREE) / SAME_TREE_M);
      const near = nearest(squares, tree, row);
      const key = keyOf(row, columnOf(tree.lonDeg, row));
      const square = squares.get(key) ?? [];
      squares.set(key, square);
      // A heap of trees on one spot is compared with its first few only, or it would cost its square.
      if (square.length < MOST_IN_SQUARE) square.push(tree);
      if (near === null) return;
      const isSame = near.distanceM === 0;
      log.note(feature, {
        code: isSame ? "same-place" : "near-place",
        severity: "warning",
        field: null,
        value: `${tree.lonDeg},${tree.latDeg}`,
        reason: isSame
          ? `It stands on the very point of tree ${near.id}; both are kept`
          : `It stands ${Math.max(1, Math.round(near.distanceM * 100))} cm from tree ${near.id}, nearer than two trunks can; both are kept`,
        whatToDo: "Delete one if they are the same tree, else correct the position",
      });
    },
  };
}

const MOST_IN_SQUARE = 4;

/** One number for a square: more columns than any row has, so that rows do not meet, and below 2^53. */
const keyOf = (row: number, column: number): number => row * 150_000_000 + column;

/** Column of a square in a row: rows are as many squares long as the parallel of their own middle. */
function columnOf(lonDeg: number, row: number): number {
  const latDeg = ((row + 0.5) * SAME_TREE_M) / METERS_PER_DEGREE;
  return Math.floor((lonDeg * METERS_PER_DEGREE * Math.cos((latDeg * Math.PI) / 180)) / SAME_TREE_M);
}

function nearest(
  squares: ReadonlyMap<number, readonly Placed[]>,
  tree: Placed,
  row: number,
): { id: string; distanceM: number } | null {
  const scale = Math.cos((tree.latDeg * Math.PI) / 180);
  let found: { id: string; distanceM: number } | null = null;
  for (let near = row - 1; near <= row + 1; near += 1) {
    const column = columnOf(tree.lonDeg, near);
    for (let beside = column - 1; beside <= column + 1; beside += 1) {
      for (const { id, lonDeg, latDeg } of squares.get(keyOf(near, beside)) ?? []) {
        const distanceM = METERS_PER_DEGREE * Math.hypot((lonDeg - tree.lonDeg) * scale, latDeg - tree.latDeg);
        if (distanceM <= SAME_TREE_M && (found === null || distanceM < found.distanceM)) found = { id, distanceM };
      }
    }
  }
  return found;
}
