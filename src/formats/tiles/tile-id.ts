/** Highest zoom whose tiles can be numbered: past it ids are no longer whole numbers that a double holds exactly. */
export const MAX_TILE_ZOOM = 26;

/**
 * Number of a tile in a PMTiles archive: all tiles of the zooms before it, then its place on the Hilbert curve of its own zoom.
 * Throws RangeError for a tile that its zoom does not have. Source: PMTiles version 3, "Entries"; the curve as in the reference reader.
 */
export function tileId(zoom: number, x: number, y: number): number {
  const side = 2 ** zoom;
  const isTile = [zoom, x, y].every(Number.isInteger) && zoom >= 0 && zoom <= MAX_TILE_ZOOM;
  if (!isTile || x < 0 || y < 0 || x >= side || y >= side)
    throw new RangeError(`Expected a tile of zoom 0 to ${MAX_TILE_ZOOM}, got ${zoom}/${x}/${y}`);
  let place = 0;
  let [column, row] = [x, y];
  for (let half = side / 2; half >= 1; half /= 2) {
    const right = (column & half) > 0 ? 1 : 0;
    const below = (row & half) > 0 ? 1 : 0;
    place += half * half * ((3 * right) ^ below);
    // Each quarter of the curve is the whole one turned, so that its end meets the next one's beginning.
    if (below === 0) {
      if (right === 1) [column, row] = [half - 1 - (column & (half - 1)), half - 1 - (row & (half - 1))];
      [column, row] = [row, column];
    }
  }
  return (4 ** zoom - 1) / 3 + place;
}
