import type { Position } from "geojson";
import type { SurroundingFeature } from "../model/surroundings.ts";
import type { RoadSides } from "./road-sides.ts";
import type { WayKind } from "./surroundings.ts";
import type { WayWidth } from "./way-width.ts";

/** A road or path on the ground, read and not yet an envelope: an area, or lines with their width. */
export interface Way {
  readonly shown: SurroundingFeature;
  readonly kind: WayKind;
  readonly rings: readonly (readonly Position[])[] | null;
  readonly lines: readonly (readonly Position[])[] | null;
  readonly width: WayWidth | null;
  /** What a road has on its sides; null for paths. */
  readonly sides: RoadSides | null;
}

export const isPath = (kind: WayKind): boolean => kind === "walkway" || kind === "bikeway";
