import type { Geometry } from "geojson";
import type { Layer } from "./terms.ts";

/**
 * One input feature that passed the reader's checks: geometry valid for its type, positions finite WGS 84
 * longitude and latitude in range, at least one position. The core never sees any other.
 */
export interface SourceFeature<G extends Geometry = Geometry> {
  readonly layer: Layer;
  /** File name as shown to people, without its folder. */
  readonly file: string;
  /** Position among the features of its file, from 0. */
  readonly index: number;
  /** Position among all features handed over for its layer, from 0; the order of every output. */
  readonly ordinal: number;
  readonly id: string | number | null;
  readonly properties: Readonly<Record<string, unknown>>;
  readonly geometry: G;
}
