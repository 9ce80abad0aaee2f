import type { Position } from "geojson";
import type { RoadClass } from "../model/surroundings.ts";
import type { Basis } from "../model/terms.ts";
import type { RoadSides } from "./road-sides.ts";
import type { RoadSightDetails } from "./sight/road-sight-details.ts";

/** A road centerline as the sight triangles need it. */
export interface Centerline {
  readonly id: string;
  readonly name: string | null;
  readonly lines: readonly (readonly Position[])[];
  readonly roadClass: RoadClass;
  /** Half the traveled way, without parking lanes and shoulders where the lanes are recorded. */
  readonly halfWidthM: number;
  readonly laneM: number;
  /** How the width is known; left out where it was measured. */
  readonly widthBasis?: Basis;
  /** Lanes in both directions together. */
  readonly lanes: number;
  readonly speedKmh: number;
  readonly speedBasis: Basis;
  /** 1: traffic runs with the line only, -1: against it only, 0: both. */
  readonly oneway: -1 | 0 | 1;
  /** 0 at ground level; ways of different levels do not meet where they cross. */
  readonly level: number;
  /** What the record says of its sides. */
  readonly sides?: RoadSides;
  readonly isRoundabout?: boolean;
  /** Grade, median and lanes by direction. */
  readonly details?: RoadSightDetails;
}
