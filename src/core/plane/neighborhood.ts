import type { PlaneShapes } from "./plane-shapes.ts";
import { isInRings } from "./rings.ts";
import { nearestShare } from "./segments.ts";

/** Areas with more boundary vertices than this are tested by the indexed segments to the point's east alone. */
const DIRECT_VERTICES = 128;

/** The point of a thing nearest to the searched point, relative to it; an infinite distance when no boundary was found. */
export interface Nearest {
  distanceM: number;
  xM: number;
  yM: number;
}

/**
 * What lies around one point of a plane: the items near it and, item by item, their boundary segments relative to the point. One object
 * serves a whole run; a search allocates nothing once its arrays have grown.
 */
export class Neighborhood {
  /** Items found by the last search, ascending, each once. */
  items: Uint32Array = new Uint32Array(64);
  itemCount = 0;
  /** Segments of the last item loaded: ax, ay, bx, by in meters relative to the searched point. */
  segments: Float64Array = new Float64Array(4 * 256);
  segmentCount = 0;
  /** Whether the searched point is inside the last item loaded; false for lines. */
  isInside = false;
  /** Nearest boundary point, or point of the line, of the last item loaded. */
  readonly nearest: Nearest = { distanceM: Number.POSITIVE_INFINITY, xM: 0, yM: 0 };
  /** Conductor spans found by the last span search, ascending. */
  spans: Uint32Array = new Uint32Array(64);
  spanCount = 0;

  #shapes: PlaneShapes | null = null;
  #x = 0;
  #y = 0;
  #hits: Uint32Array = new Uint32Array(256);
  #hitCount = 0;
  /** First and end position in the sorted hits, and 1 for inside, an item at a time. */
  #firstHit: Uint32Array = new Uint32Array(64);
  #endHit: Uint32Array = new Uint32Array(64);
  #inside: Uint8Array = new Uint8Array(64);
  #crossings = 0;
  #wanted = 0;

  /** Finds the items with a boundary in the square of half side `radiusM` about a point, and the areas the point is in. */
  search(shapes: PlaneShapes, xM: number, yM: number, radiusM: number): void {
    this.#shapes = shapes;
    this.#x = xM;
    this.#y = yM;
    this.#hitCount = 0;
    this.itemCount = 0;
    shapes.chunks?.search(xM - radiusM, yM - radiusM, xM + radiusM, yM + radiusM, this.#keepChunk);
    const hits = this.#hits.subarray(0, this.#hitCount).sort();
    for (let at = 0; at < this.#hitCount; ) {
      const item = shapes.chunkItem[hits[at]!]!;
      let end = at + 1;
      while (end < this.#hitCount && shapes.chunkItem[hits[end]!] === item) end += 1;
      this.#addItem(item, at, end);
      at = end;
    }
    shapes.areas?.search(xM, yM, xM, yM, this.#markArea);
    this.#sortItems();
  }

  /**
   * Loads the item at a position of `items`: its nearest point, whether it contains the searched point, and its segments as far as they come
   * within `keepM` of it.
   */
  load(position: number, keepM: number): void {
    const { parts, chunkFrom, chunkTo } = this.#shapes!;
    const { nearest } = this;
    this.isInside = this.#inside[position] === 1;
    let least = Number.POSITIVE_INFINITY;
    let count = 0;
    nearest.xM = 0;
    nearest.yM = 0;
    for (let hit = this.#firstHit[position]!; hit < this.#endHit[position]!; hit += 1) {
      const chunk = this.#hits[hit]!;
      const from = chunkFrom[chunk]!;
      const to = chunkTo[chunk]!;
      const needed = 4 * (count + to - from);
      if (needed > this.segments.length) this.segments = grownFloats(this.segments, needed);
      for (let at = from; at < to; at += 1) {
        const ax = parts.xy[2 * at]! - this.#x;
        const ay = parts.xy[2 * at + 1]! - this.#y;
        const bx = parts.xy[2 * at + 2]! - this.#x;
        const by = parts.xy[2 * at + 3]! - this.#y;
        const share = nearestShare(0, 0, ax, ay, bx, by);
        const x = ax + share * (bx - ax);
        const y = ay + share * (by - ay);
        const squared = x * x + y * y;
        if (squared < least) {
          least = squared;
          nearest.xM = x;
          nearest.yM = y;
        }
        if (squared > keepM * keepM) continue;
        this.segments[4 * count] = ax;
        this.segments[4 * count + 1] = ay;
        this.segments[4 * count + 2] = bx;
        this.segments[4 * count + 3] = by;
        count += 1;
      }
    }
    nearest.distanceM = Math.sqrt(least);
    this.segmentCount = count;
  }

  /** Finds the conductor spans whose box meets the square of half side `radiusM` about a point. */
  searchSpans(shapes: PlaneShapes, xM: number, yM: number, radiusM: number): void {
    this.spanCount = 0;
    shapes.spanBoxes?.search(xM - radiusM, yM - radiusM, xM + radiusM, yM + radiusM, this.#keepSpan);
    this.spans.subarray(0, this.spanCount).sort();
  }

  readonly #keepChunk = (chunk: number): boolean => {
    if (this.#hitCount === this.#hits.length) this.#hits = grown(this.#hits);
    this.#hits[this.#hitCount] = chunk;
    this.#hitCount += 1;
    return false;
  };

  readonly #keepSpan = (span: number): boolean => {
    if (this.spanCount === this.spans.length) this.spans = grown(this.spans);
    this.spans[this.spanCount] = span;
    this.spanCount += 1;
    return false;
  };

  readonly #markArea = (area: number): boolean => {
    const item = this.#shapes!.areaItem[area]!;
    if (!this.#contains(item, area)) return false;
    for (let at = 0; at < this.itemCount; at += 1) {
      if (this.items[at] === item) {
        this.#inside[at] = 1;
        return false;
      }
    }
    this.#addItem(item, 0, 0);
    this.#inside[this.itemCount - 1] = 1;
    return false;
  };

  #contains(item: number, area: number): boolean {
    const shapes = this.#shapes!;
    const first = shapes.itemParts[item]!;
    const end = shapes.itemParts[item + 1]!;
    if (shapes.parts.starts[end]! - shapes.parts.starts[first]! <= DIRECT_VERTICES) {
      return isInRings(shapes.parts, first, end, this.#x, this.#y);
    }
    this.#crossings = 0;
    this.#wanted = item;
    shapes.chunks?.search(this.#x, this.#y, shapes.areaEastM[area]!, this.#y, this.#countCrossings);
    return this.#crossings % 2 === 1;
  }

  readonly #countCrossings = (chunk: number): boolean => {
    const { chunkItem, chunkFrom, chunkTo, parts } = this.#shapes!;
    if (chunkItem[chunk] !== this.#wanted) return false;
    const { xy } = parts;
    for (let at = chunkFrom[chunk]!; at < chunkTo[chunk]!; at += 1) {
      const ay = xy[2 * at + 1]!;
      const by = xy[2 * at + 3]!;
      if (ay > this.#y === by > this.#y) continue;
      const ax = xy[2 * at]!;
      if (this.#x < ax + ((this.#y - ay) / (by - ay)) * (xy[2 * at + 2]! - ax)) this.#crossings += 1;
    }
    return false;
  };

  #addItem(item: number, firstHit: number, endHit: number): void {
    if (this.itemCount === this.items.length) {
      this.items = grown(this.items);
      this.#firstHit = grown(this.#firstHit);
      this.#endHit = grown(this.#endHit);
      const inside = new Uint8Array(this.#inside.length * 2);
      inside.set(this.#inside);
      this.#inside = inside;
    }
    this.items[this.itemCount] = item;
    this.#firstHit[this.itemCount] = firstHit;
    this.#endHit[this.itemCount] = endHit;
    this.#inside[this.itemCount] = 0;
    this.itemCount += 1;
  }

  /** Insertion sort: items come sorted but for the few areas found only around the point. */
  #sortItems(): void {
    for (let at = 1; at < this.itemCount; at += 1) {
      const item = this.items[at]!;
      if (this.items[at - 1]! <= item) continue;
      const first = this.#firstHit[at]!;
      const end = this.#endHit[at]!;
      const inside = this.#inside[at]!;
      let to = at;
      for (; to > 0 && this.items[to - 1]! > item; to -= 1) {
        this.items[to] = this.items[to - 1]!;
        this.#firstHit[to] = this.#firstHit[to - 1]!;
        this.#endHit[to] = this.#endHit[to - 1]!;
        this.#inside[to] = this.#inside[to - 1]!;
      }
      this.items[to] = item;
      this.#firstHit[to] = first;
      this.#endHit[to] = end;
      this.#inside[to] = inside;
    }
  }
}

function grown(array: Uint32Array): Uint32Array {
  const larger = new Uint32Array(array.length * 2);
  larger.set(array);
  return larger;
}

function grownFloats(array: Float64Array, needed: number): Float64Array {
  const larger = new Float64Array(Math.max(needed, array.length * 2));
  larger.set(array);
  return larger;
}
