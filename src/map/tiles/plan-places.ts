import type { Feature, Geometry } from "geojson";
import { URGENCIES } from "../../core/model/terms.ts";
import type { PrescriptionLine } from "../../core/plan/read-plan.ts";
import { type ByteFile, featureLines, linesOf } from "../../formats/tiles/byte-file.ts";
import type { ThinnedPoints } from "../../formats/tiles/thinned.ts";
import { type WorldBox, worldX, worldY } from "../../formats/tiles/world-place.ts";

/** Where in a file its lines are, in their order. */
export interface LinePlaces {
  readonly offset: Float64Array;
  readonly length: Uint32Array;
}

/** The trees of a plan by input row: where they stand on the map and in the file, and how urgent they are. About 70 bytes a tree. */
export interface TreePlaces extends LinePlaces, ThinnedPoints {
  readonly lonDeg: Float64Array;
  readonly latDeg: Float64Array;
  readonly rowOf: ReadonlyMap<string, number>;
}

/** Reads where the trees are out of `prescriptions.jsonl`, a line at a time. */
export function treePlaces(prescriptions: ByteFile): TreePlaces {
  const [offset, length, lonDeg, latDeg, classOf]: number[][] = [[], [], [], [], []];
  const rowOf = new Map<string, number>();
  for (const line of linesOf(prescriptions)) {
    if (line.text === "") continue;
    const { tree, prescription } = JSON.parse(line.text) as PrescriptionLine;
    rowOf.set(tree.id, offset!.length);
    offset!.push(line.offset);
    length!.push(line.length);
    lonDeg!.push(tree.lonDeg);
    latDeg!.push(tree.latDeg);
    classOf!.push(URGENCIES.indexOf(prescription.urgency));
  }
  return {
    offset: Float64Array.from(offset!),
    length: Uint32Array.from(length!),
    lonDeg: Float64Array.from(lonDeg!),
    latDeg: Float64Array.from(latDeg!),
    x: Float64Array.from(lonDeg!, worldX),
    y: Float64Array.from(latDeg!, worldY),
    classOf: Uint8Array.from(classOf!),
    wholeClass: URGENCIES.indexOf("now"),
    rowOf,
  };
}

/** The conflicts of each tree: those from `first[row]` to before `first[row + 1]`, in the order of the file. */
export interface ConflictPlaces extends LinePlaces {
  readonly first: Uint32Array;
}

/** Reads where the conflicts of each tree are out of `conflicts.geojson`; those of a tree that the plan lacks are passed over, as the map does. */
export function conflictPlaces(conflicts: ByteFile, { rowOf }: TreePlaces): ConflictPlaces {
  const [rows, offset, length]: number[][] = [[], [], []];
  for (const line of featureLines(conflicts)) {
    const treeId: unknown = (JSON.parse(line.text) as Feature).properties?.tree;
    const row = typeof treeId === "string" ? rowOf.get(treeId) : undefined;
    if (row === undefined) continue;
    rows!.push(row);
    offset!.push(line.offset);
    length!.push(line.length);
  }
  const first = new Uint32Array(rowOf.size + 1);
  for (const row of rows!) first[row + 1]! += 1;
  for (let row = 0; row < rowOf.size; row += 1) first[row + 1]! += first[row]!;
  const next = first.slice();
  const places = { first, offset: new Float64Array(rows!.length), length: new Uint32Array(rows!.length) };
  for (const [at, row] of rows!.entries()) {
    const to = next[row]!;
    next[row] = to + 1;
    places.offset[to] = offset![at]!;
    places.length[to] = length![at]!;
  }
  return places;
}

/** The features of a file of places, each with its box on the map. */
export interface ThingPlaces extends LinePlaces {
  readonly boxes: readonly WorldBox[];
}

/** Reads where the features of a collection are, one a line; those without a place keep their line and have no box in any cell. */
export function thingPlaces(file: ByteFile): ThingPlaces {
  const [offset, length]: number[][] = [[], []];
  const boxes: WorldBox[] = [];
  for (const line of featureLines(file)) {
    offset!.push(line.offset);
    length!.push(line.length);
    boxes.push(boxOf((JSON.parse(line.text) as Feature<Geometry | null>).geometry));
  }
  return { offset: Float64Array.from(offset!), length: Uint32Array.from(length!), boxes };
}

/** The box of a geometry on the map; one that nothing meets for none. */
export function boxOf(geometry: Geometry | null): WorldBox {
  const box = { west: Infinity, north: Infinity, east: -Infinity, south: -Infinity };
  const take = (value: unknown): void => {
    if (!Array.isArray(value)) return;
    if (typeof value[0] !== "number") {
      for (const part of value) take(part);
      return;
    }
    const [x, y] = [worldX(value[0]), worldY(value[1] as number)];
    box.west = Math.min(box.west, x);
    box.east = Math.max(box.east, x);
    box.north = Math.min(box.north, y);
    box.south = Math.max(box.south, y);
  };
  if (geometry?.type === "GeometryCollection")
    for (const one of geometry.geometries) take((one as { coordinates: unknown }).coordinates);
  else if (geometry !== null) take(geometry.coordinates);
  return box;
}
