import type { WorldBox } from "./world-place.ts";

/** Points of a map by place, each with the class that it keeps to when points are thinned. */
export interface ThinnedPoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** A small whole number; points of different classes never stand for each other. */
  readonly classOf: Uint8Array;
  /** The class of which every point is kept. */
  readonly wholeClass: number;
}

/** Squares along the side of a tile of which each keeps one point of a class: 4 pixels of a tile drawn 512 wide. */
const SQUARES = 128;

/**
 * Which of some points an overview keeps at a zoom, and for how many each stands: all of one class, and of every other class the first in each square of a
 * grid. What is kept at a zoom is kept at every closer one.
 */
export function thinned(points: ThinnedPoints, rows: Iterable<number>, zoom: number): Map<number, number> {
  const { x, y, classOf, wholeClass } = points;
  const squares = 2 ** zoom * SQUARES;
  const keptAt = new Map<number, number>();
  const kept = new Map<number, number>();
  for (const row of rows) {
    if (classOf[row] === wholeClass) {
      kept.set(row, 1);
      continue;
    }
    const square = (Math.floor(y[row]! * squares) * squares + Math.floor(x[row]! * squares)) * 8 + classOf[row]!;
    const first = keptAt.get(square);
    if (first === undefined) {
      keptAt.set(square, row);
      kept.set(row, 1);
    } else kept.set(first, kept.get(first)! + 1);
  }
  return kept;
}

/** The box of a tile. */
export const tileBox = (zoom: number, x: number, y: number): WorldBox => {
  const side = 2 ** zoom;
  return { west: x / side, north: y / side, east: (x + 1) / side, south: (y + 1) / side };
};
