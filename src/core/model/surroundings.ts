import type { Geometry } from "geojson";
import type { ConflictKind, Layer } from "./terms.ts";

/** What a plan shows of a surrounding feature, and what a conflict says it is with. */
export interface SurroundingFeature {
  /** Unique in its layer: own id as text, or `file#index`. */
  readonly id: string;
  readonly layer: Layer;
  readonly name: string | null;
  readonly kind: ConflictKind | "building" | "sign" | "signal" | null;
  /** Original geometry in longitude and latitude. */
  readonly geometry: Geometry;
  /** Width of the way in meters as minimum, typical and maximum with its source; null for areas and others. */
  readonly width: {
    readonly minM: number;
    readonly typicalM: number;
    readonly maxM: number;
    readonly source: string;
  } | null;
  /** Height in meters (building, sign, signal, attachment) with its source. */
  readonly heightM: number | null;
  readonly heightSource: string | null;
  readonly roadClass: RoadClass | null;
  readonly speedKmh: number | null;
  readonly speedSource: string | null;
  readonly lanes: number | null;
  /** Line-to-line voltage in volts; null when unknown or not a conductor. */
  readonly voltageV: number | null;
}

/** Road classes the standard has widths and speeds for. */
export const ROAD_CLASSES = [
  "freeway",
  "major-arterial",
  "minor-arterial",
  "collector",
  "local-residential",
  "local-access",
  "service-alley",
  "rural-two-lane",
] as const;
export type RoadClass = (typeof ROAD_CLASSES)[number];

/** One sight triangle at an intersection. */
export interface SightTriangle {
  /** Stable: made of the intersection's position, the minor leg and the direction. */
  readonly id: string;
  readonly roadName: string | null;
  readonly direction: "left" | "right";
  readonly control: "stop";
  readonly controlSource: string;
  readonly designSpeedKmh: number;
  /** Intersection sight distance in meters along the major road. */
  readonly legM: number;
  /** Ring in longitude and latitude: decision point, nearest point on the lane, far end. */
  readonly ring: readonly (readonly [number, number])[];
  readonly windowLowM: number;
  readonly windowHighM: number;
  readonly ruleId: string;
}
