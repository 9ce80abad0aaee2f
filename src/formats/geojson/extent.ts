/** Smallest and largest first and second numbers of positions, in the units of the file. */
export interface Extent {
  minX: number;
  maxX: number;
  minY: number;
  maxY: number;
}

/** An extent that holds nothing yet. */
export const emptyExtent = (): Extent => ({ minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity });

/** Widens an extent by a position, in place. */
export function widen(extent: Extent, x: number, y: number): void {
  if (x < extent.minX) extent.minX = x;
  if (x > extent.maxX) extent.maxX = x;
  if (y < extent.minY) extent.minY = y;
  if (y > extent.maxY) extent.maxY = y;
}
