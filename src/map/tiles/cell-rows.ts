import { tilesTouching, type WorldBox } from "../../formats/tiles/world-place.ts";
import type { TreePlaces } from "./plan-places.ts";
import { CELL_ZOOM } from "./tile-layers.ts";

/** What stands in a cell, each by its place in its file. */
export interface CellContent {
  readonly x: number;
  readonly y: number;
  /** Trees that stand in the cell. */
  readonly own: readonly number[];
  /** Trees beside the cell whose crowns may reach into it. */
  readonly beside: readonly number[];
  /** Places of the features of a layer that touch the cell. */
  at(layer: string): readonly number[];
}

/** Farthest that a crown reaches, as a share of the map's width: 76 m on the equator, 33 m at 64 degrees. */
const CROWN_REACH = 2 ** -19;
/** A cell's buffer for all else: that of its largest tile. */
const THING_REACH = 2 ** -CELL_ZOOM / 32;
const SIDE = 2 ** CELL_ZOOM;

/** What stands in each tile of the zoom at which tiles are made one at a time. */
export class CellRows {
  readonly #cells = new Map<number, { own: number[]; beside: number[]; things: Map<string, number[]> }>();

  addTrees({ x, y }: TreePlaces): void {
    for (let row = 0; row < x.length; row += 1) {
      const [at, down] = [x[row]!, y[row]!];
      const own = keyOf(Math.min(SIDE - 1, Math.floor(at * SIDE)), Math.min(SIDE - 1, Math.floor(down * SIDE)));
      for (const [column, line] of tilesTouching(
        around({ west: at, east: at, north: down, south: down }, CROWN_REACH),
        CELL_ZOOM,
      )) {
        const key = keyOf(column, line);
        const cell = this.#cell(key);
        (key === own ? cell.own : cell.beside).push(row);
      }
    }
  }

  /** Takes the features of a layer by their boxes; a box that is nowhere is in no cell. */
  addBoxes(layer: string, boxes: readonly WorldBox[]): void {
    for (const [place, box] of boxes.entries()) {
      if (!(box.west <= box.east)) continue;
      for (const [column, line] of tilesTouching(around(box, THING_REACH), CELL_ZOOM)) {
        const { things } = this.#cell(keyOf(column, line));
        const held = things.get(layer);
        if (held === undefined) things.set(layer, [place]);
        else held.push(place);
      }
    }
  }

  /** The cells with anything in them, row by row from the north-west. */
  keys(): number[] {
    return [...this.#cells.keys()].sort((one, other) => one - other);
  }

  get(key: number): CellContent {
    const { own, beside, things } = this.#cell(key);
    return { x: key % SIDE, y: Math.floor(key / SIDE), own, beside, at: (layer) => things.get(layer) ?? [] };
  }

  #cell(key: number) {
    const known = this.#cells.get(key);
    if (known !== undefined) return known;
    const cell = { own: [], beside: [], things: new Map() };
    this.#cells.set(key, cell);
    return cell;
  }
}

const keyOf = (x: number, y: number): number => y * SIDE + x;
const around = ({ west, north, east, south }: WorldBox, reach: number): WorldBox => ({
  west: west - reach,
  north: north - reach,
  east: east + reach,
  south: south + reach,
});
