import { tilesTouching, type WorldBox } from "../../formats/tiles/world-place.ts";
import type { TreePlaces } from "./plan-places.ts";

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
/** Of a cell's width, its buffer for all else: that of its largest tile. */
const THING_REACH = 1 / 32;

/** What stands in each tile of a zoom. */
export class CellRows {
  readonly #side: number;
  readonly #cells = new Map<number, { own: number[]; beside: number[]; things: Map<string, number[]> }>();

  constructor(readonly zoom: number) {
    this.#side = 2 ** zoom;
  }

  addTrees({ x, y }: TreePlaces): void {
    for (let row = 0; row < x.length; row += 1) {
      const [at, down] = [x[row]!, y[row]!];
      const own = this.#key(this.#held(at), this.#held(down));
      for (const [column, line] of tilesTouching(
        around({ west: at, east: at, north: down, south: down }, CROWN_REACH),
        this.zoom,
      )) {
        const key = this.#key(column, line);
        const cell = this.#cell(key);
        (key === own ? cell.own : cell.beside).push(row);
      }
    }
  }

  /** Takes the features of a layer by their boxes; a box that is nowhere is in no cell. */
  addBoxes(layer: string, boxes: readonly WorldBox[]): void {
    for (const [place, box] of boxes.entries()) {
      if (!(box.west <= box.east)) continue;
      for (const [column, line] of tilesTouching(around(box, THING_REACH / this.#side), this.zoom)) {
        const { things } = this.#cell(this.#key(column, line));
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
    return {
      x: key % this.#side,
      y: Math.floor(key / this.#side),
      own,
      beside,
      at: (layer) => things.get(layer) ?? [],
    };
  }

  #key(x: number, y: number): number {
    return y * this.#side + x;
  }

  #held(place: number): number {
    return Math.min(this.#side - 1, Math.floor(place * this.#side));
  }

  #cell(key: number) {
    const known = this.#cells.get(key);
    if (known !== undefined) return known;
    const cell = { own: [], beside: [], things: new Map() };
    this.#cells.set(key, cell);
    return cell;
  }
}

const around = ({ west, north, east, south }: WorldBox, reach: number): WorldBox => ({
  west: west - reach,
  north: north - reach,
  east: east + reach,
  south: south + reach,
});
