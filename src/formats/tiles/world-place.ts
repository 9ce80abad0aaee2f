/** Place of a longitude on the square web map, from 0 in the west to 1 in the east. */
export const worldX = (lonDeg: number): number => (lonDeg + 180) / 360;

/** Place of a latitude on the square web map (EPSG:3857), from 0 in the north to 1 in the south; held to the map's edges. */
export function worldY(latDeg: number): number {
  const sine = Math.sin((latDeg * Math.PI) / 180);
  return Math.min(1, Math.max(0, 0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI)));
}

/** A box on the square web map. */
export interface WorldBox {
  readonly west: number;
  readonly north: number;
  readonly east: number;
  readonly south: number;
}

/** The tiles of a zoom that a box touches, each as its column and row; a box at the map's edge stays on the map. */
export function* tilesTouching(
  box: WorldBox,
  zoom: number,
): Generator<readonly [x: number, y: number], void, undefined> {
  const side = 2 ** zoom;
  const held = (place: number) => Math.min(side - 1, Math.max(0, Math.floor(place * side)));
  for (let y = held(box.north); y <= held(box.south); y += 1)
    for (let x = held(box.west); x <= held(box.east); x += 1) yield [x, y];
}
