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
  /** Conductor spans: x, y, z of both ends in meters and the sag at mid-span, seven numbers each. */
  readonly spans: Float64Array;
  readonly spanOwner: Uint32Array;
  readonly spanBoxes: Flatbush | null;
}

/** Numbers a span takes in `PlaneShapes.spans`. */
export const SPAN_STRIDE = 7;
