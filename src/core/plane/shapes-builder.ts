import Flatbush from "flatbush";
import type { Position } from "geojson";
import { planesAcross, toPlaneInto } from "./plane.ts";
import type { HungSpan, PlaneShapes } from "./plane-shapes.ts";

/** Segments in one box of the index; 8 keeps boxes small against a crown and the index an eighth of the segments. */
const CHUNK_SEGMENTS = 8;

/** Collects shapes into the planes they touch, then packs and indexes them. Owners are numbers the caller gives, in ascending order. */
export class ShapesBuilder {
  readonly #planes = new Map<number, OpenPlane>();

  /** Rings of an area (holes among them, even-odd) of one owner. */
  addArea(owner: number, rings: readonly (readonly Position[])[]): void {
    this.#add(owner, rings, true, 0);
  }

  /** Lines of one owner; `halfWidthM` is the largest reach to the side that the index must answer for. */
  addLines(owner: number, lines: readonly (readonly Position[])[], halfWidthM: number): void {
    this.#add(owner, lines, false, halfWidthM);
  }

  /** One conductor line. `hang` gives the wires of its span from vertex `at` to the next in the meters of a plane; null for none. */
  addSpans(owner: number, line: readonly Position[], firstNumber: number, hang: HangSpan): void {
    const [westDeg, eastDeg, latDeg] = spanOf([line]);
    for (const plane of planesAcross(westDeg, eastDeg, latDeg)) {
      const open = this.#open(plane);
      const xy = projected(plane, line);
      for (let at = 0; at + 1 < line.length; at += 1) {
        const [ax, ay, bx, by] = [xy[2 * at]!, xy[2 * at + 1]!, xy[2 * at + 2]!, xy[2 * at + 3]!];
        const hung = hang(at, ax, ay, bx, by);
        if (hung !== null) open.spans.push({ owner, number: firstNumber + at, ends: [ax, ay, bx, by], hung });
      }
    }
  }

  finish(): Map<number, PlaneShapes> {
    const planes = new Map<number, PlaneShapes>();
    for (const plane of [...this.#planes.keys()].sort((a, b) => a - b)) {
      planes.set(plane, packed(plane, this.#planes.get(plane)!));
    }
    return planes;
  }

  #add(owner: number, lines: readonly (readonly Position[])[], isArea: boolean, halfWidthM: number): void {
    const [westDeg, eastDeg, latDeg] = spanOf(lines);
    for (const plane of planesAcross(westDeg, eastDeg, latDeg)) {
      const open = this.#open(plane);
      const item = open.items.length;
      open.items.push({ owner, firstPart: open.lengths.length, isArea, halfWidthM });
      for (const line of lines) {
        if (line.length < 2) continue;
        const xy = projected(plane, line);
        open.xy.push(xy);
        open.lengths.push(line.length);
        open.partItem.push(item);
      }
    }
  }

  #open(plane: number): OpenPlane {
    let open = this.#planes.get(plane);
    if (open === undefined) {
      open = { items: [], xy: [], lengths: [], partItem: [], spans: [] };
      this.#planes.set(plane, open);
    }
    return open;
  }
}

interface OpenPlane {
  readonly items: { owner: number; firstPart: number; isArea: boolean; halfWidthM: number }[];
  readonly xy: Float64Array[];
  readonly lengths: number[];
  readonly partItem: number[];
  readonly spans: OpenSpan[];
}

interface OpenSpan {
  readonly owner: number;
  readonly number: number;
  readonly ends: readonly [ax: number, ay: number, bx: number, by: number];
  readonly hung: HungSpan;
}

/** The wires of a span between two places of a plane. */
export type HangSpan = (at: number, ax: number, ay: number, bx: number, by: number) => HungSpan | null;

/** West and east longitude, east past 180 where the lines step over the antimeridian, and the latitude farthest from the equator. */
export function spanOf(lines: readonly (readonly Position[])[]): [westDeg: number, eastDeg: number, latDeg: number] {
  let west = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let farthest = 0;
  const firstDeg = lines.find((line) => line.length > 0)?.[0]?.[0] ?? 0;
  for (const line of lines) {
    for (const position of line) {
      // The short way round from the first position: no street or building spans half the globe.
      const step = position[0]! - firstDeg;
      const lonDeg = firstDeg + (step > 180 ? step - 360 : step < -180 ? step + 360 : step);
      if (lonDeg < west) west = lonDeg;
      if (lonDeg > east) east = lonDeg;
      if (Math.abs(position[1]!) > farthest) farthest = Math.abs(position[1]!);
    }
  }
  return [west, east, farthest];
}

function projected(plane: number, line: readonly Position[]): Float64Array {
  const xy = new Float64Array(line.length * 2);
  for (let at = 0; at < line.length; at += 1) toPlaneInto(xy, 2 * at, plane, line[at]![0]!, line[at]![1]!);
  return xy;
}

function packed(plane: number, open: OpenPlane): PlaneShapes {
  const vertexCount = open.lengths.reduce((sum, length) => sum + length, 0);
  const xy = new Float64Array(vertexCount * 2);
  const starts = new Uint32Array(open.lengths.length + 1);
  const chunkItem: number[] = [];
  const chunkFrom: number[] = [];
  const chunkTo: number[] = [];
  let vertex = 0;
  for (let part = 0; part < open.lengths.length; part += 1) {
    starts[part] = vertex;
    xy.set(open.xy[part]!, vertex * 2);
    const last = vertex + open.lengths[part]! - 1;
    for (let from = vertex; from < last; from += CHUNK_SEGMENTS) {
      chunkItem.push(open.partItem[part]!);
      chunkFrom.push(from);
      chunkTo.push(Math.min(from + CHUNK_SEGMENTS, last));
    }
    vertex = last + 1;
  }
  starts[open.lengths.length] = vertex;

  const itemParts = new Uint32Array(open.items.length + 1);
  open.items.forEach((item, at) => {
    itemParts[at] = item.firstPart;
  });
  itemParts[open.items.length] = open.lengths.length;

  const areaItem: number[] = [];
  open.items.forEach((item, at) => {
    if (item.isArea && itemParts[at + 1]! > itemParts[at]!) areaItem.push(at);
  });
  return {
    plane,
    parts: { xy, starts },
    itemOwner: Uint32Array.from(open.items, (item) => item.owner),
    itemParts,
    chunkItem: Uint32Array.from(chunkItem),
    chunkFrom: Uint32Array.from(chunkFrom),
    chunkTo: Uint32Array.from(chunkTo),
    chunks: indexOf(chunkFrom.length, (at, add) => {
      addBox(add, xy, chunkFrom[at]!, chunkTo[at]! + 1, open.items[chunkItem[at]!]!.halfWidthM);
    }),
    areaItem: Uint32Array.from(areaItem),
    areas: indexOf(areaItem.length, (at, add) => {
      const item = areaItem[at]!;
      addBox(add, xy, starts[itemParts[item]!]!, starts[itemParts[item + 1]!]!, 0);
    }),
    areaEastM: Float64Array.from(areaItem, (item) =>
      eastOf(xy, starts[itemParts[item]!]!, starts[itemParts[item + 1]!]!),
    ),
    ...packedSpans(open.spans),
  };
}

type PackedSpans = Pick<
  PlaneShapes,
  "wires" | "wireCase" | "spanWire" | "spanGroundM" | "spanOwner" | "spanNumber" | "spanBoxes"
>;

function packedSpans(spans: readonly OpenSpan[]): PackedSpans {
  const wires = new Float64Array(spans.reduce((count, { hung }) => count + hung.wires.length, 0));
  const spanWire = new Uint32Array(spans.length + 1);
  let at = 0;
  spans.forEach(({ hung }, span) => {
    wires.set(hung.wires, at);
    at += hung.wires.length;
    spanWire[span + 1] = spanWire[span]! + hung.cases.length;
  });
  return {
    wires,
    wireCase: Uint8Array.from(spans.flatMap(({ hung }) => hung.cases)),
    spanWire,
    spanGroundM: Float64Array.from(spans.flatMap(({ hung }) => hung.groundM)),
    spanOwner: Uint32Array.from(spans, ({ owner }) => owner),
    spanNumber: Uint32Array.from(spans, ({ number }) => number),
    spanBoxes: indexOf(spans.length, (span, add) => {
      const { ends, hung } = spans[span]!;
      const [ax, ay, bx, by] = ends;
      const aside = hung.blowOutM;
      add(Math.min(ax, bx) - aside, Math.min(ay, by) - aside, Math.max(ax, bx) + aside, Math.max(ay, by) + aside);
    }),
  };
}

type AddBox = (minX: number, minY: number, maxX: number, maxY: number) => void;

/** A packed index of `count` boxes, or null for none: the index cannot be empty. */
function indexOf(count: number, box: (at: number, add: AddBox) => void): Flatbush | null {
  if (count === 0) return null;
  const index = new Flatbush(count);
  const add: AddBox = (minX, minY, maxX, maxY) => {
    index.add(minX, minY, maxX, maxY);
  };
  for (let at = 0; at < count; at += 1) box(at, add);
  index.finish();
  return index;
}

function addBox(add: AddBox, xy: Float64Array, from: number, to: number, marginM: number): void {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (let at = from; at < to; at += 1) {
    const x = xy[2 * at]!;
    const y = xy[2 * at + 1]!;
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  add(minX - marginM, minY - marginM, maxX + marginM, maxY + marginM);
}

function eastOf(xy: Float64Array, from: number, to: number): number {
  let east = Number.NEGATIVE_INFINITY;
  for (let at = from; at < to; at += 1) east = Math.max(east, xy[2 * at]!);
  return east;
}
