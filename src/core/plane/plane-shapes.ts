import type Flatbush from "flatbush";
import type { PackedParts } from "./rings.ts";

/**
 * The shapes of one plane in typed arrays. An item is one owner's presence in the plane, owners ascending; its lines or
 * rings are the parts `itemParts[i]` up to `itemParts[i + 1]`. Boundaries are indexed in chunks of a few segments, so that a road network
 * given as one polygon is searched as fast as many small ones.
 */
export interface PlaneShapes {
  readonly plane: number;
  readonly parts: PackedParts;
  readonly itemOwner: Uint32Array;
  readonly itemParts: Uint32Array;
  readonly chunkItem: Uint32Array;
  /** Segments of a chunk: from vertex to vertex, both inclusive. */
  readonly chunkFrom: Uint32Array;
  readonly chunkTo: Uint32Array;
  readonly chunks: Flatbush | null;
  /** Items that are areas, with an index of their boxes. */
  readonly areaItem: Uint32Array;
  readonly areas: Flatbush | null;
  /** Easternmost x of each area, in the order of `areaItem`. */
  readonly areaEastM: Float64Array;
  /**
   * Wires of the conductor spans, in the numbers and the order of `WIRE_STRIDE` (crown/wire/wire-columns), a wire a load case. Those of a span are
   * the wires `spanWire[i]` up to `spanWire[i + 1]`, the one at rest first.
   */
  readonly wires: Float64Array;
  /** Load case of each wire, its place in `LOAD_CASE_IDS`. */
  readonly wireCase: Uint8Array;
  readonly spanWire: Uint32Array;
  /** Elevation of the ground under both ends of each span, from which its wires' heights then count; NaN where it is not known. */
  readonly spanGroundM: Float64Array;
  readonly spanOwner: Uint32Array;
  /** Place of each span in its owner's line, from 0. */
  readonly spanNumber: Uint32Array;
  /** Boxes of the spans with all that their wires sweep in plan. */
  readonly spanBoxes: Flatbush | null;
}

/** One span in one plane with its wires, as the builder takes it. */
export interface HungSpan {
  readonly wires: Float64Array;
  readonly cases: readonly number[];
  readonly groundM: readonly [number, number];
  /** Farthest in meters that a wire gets from the chord in plan. */
  readonly blowOutM: number;
}
