import type { SightArea } from "../../model/surroundings.ts";
import type { Certainty } from "../../model/terms.ts";
import type { SightRules } from "../../standard/sight-rules.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import type { RoadGraph } from "./road-graph.ts";

/** What the triangles of one plane are built from. */
export interface SightScene {
  readonly graph: RoadGraph;
  readonly plane: number;
  readonly rules: SightRules;
  /** Top of the window that must be free, meters. */
  readonly windowHighM: number;
  readonly drive: "right" | "left";
  readonly intersections: ReadonlyMap<number, Intersection>;
}

/** A leg whose traffic a waiting driver must see. */
export interface SeenLeg {
  readonly leg: Leg;
  /** Turn in degrees from where the driver heads to where the leg lies: -90 square to the left, 90 to the right. */
  readonly turnDeg: number;
  /** Width in meters of the median between the driver and that traffic; 0 when there is none. */
  readonly medianM: number;
  /** Whether it is the other carriageway of a divided road. */
  readonly isBeyondMedian: boolean;
}

/** An area of sight, and how much of its leg the data hold. */
export interface BuiltTriangle {
  readonly area: SightArea;
  /** The lane on which vehicles must be seen, in longitude and latitude from its near end; empty where none is. */
  readonly lane: readonly (readonly [lonDeg: number, latDeg: number])[];
  /** Meters of the leg along the road that are in the data; less than `legM` where the road ends or leaves them. */
  readonly coveredM: number;
  /** The surest that a conflict in it can be. */
  readonly atMost: Certainty;
}
