import type { RoadClass, RoadControl } from "../model/surroundings.ts";
import type { Source } from "./standard.ts";

/** Vehicles a driver waits in: passenger car, single-unit truck, combination truck. */
export const SIGHT_VEHICLES = ["passenger", "single-unit", "combination"] as const;
export type SightVehicle = (typeof SIGHT_VEHICLES)[number];

/** Seconds, or meters, for each vehicle. */
export type ByVehicle = Readonly<Record<SightVehicle, number>>;

/** How the triangles are found: from time gaps (intersection sight distance), or as plain corners of fixed legs. */
export const SIGHT_METHODS = ["departure", "corner"] as const;

/** The line that the legs of a plain corner are measured along. A curb is the edge of the pavement. */
export const CORNER_LINES = ["pavement-edge", "lot-line", "center-line"] as const;

/** Where a driver at a red light may turn into the near lane: where traffic drives on the right, everywhere, nowhere. */
export const TURNS_ON_RED = ["right-hand-traffic", "always", "never"] as const;

/** The gap in traffic that a movement needs. */
export interface GapRule {
  readonly seconds: ByVehicle;
  /** Seconds more for each percent of an upgrade of the driver's approach that is steeper than `gradeFromPercent`. */
  readonly perGradePercentS: number;
}

/** What a standard says about sight at intersections. Movements are named so that they hold on either side of the road. */
export interface SightRules {
  /** The clearance rule whose minimum is the top of the window and whose clear-to is what pruning must reach. */
  readonly ruleId: string;
  readonly windowLowM: number;
  readonly method: (typeof SIGHT_METHODS)[number];
  readonly vehicle: SightVehicle;
  /** Decision point back from the edge of the major traveled way. */
  readonly setbackM: number;
  /** Where across its lane a vehicle is looked for, as a share of the lane from the edge of the road or the center: its middle. */
  readonly laneShare: number;
  readonly gaps: {
    /** Case B1: from a stop, across the near lanes into the far ones; a left turn where traffic drives on the right. */
    readonly turnAcross: GapRule;
    /** Case B2: from a stop into the near lanes. */
    readonly turnNear: GapRule;
    /** Case B3: from a stop straight across. */
    readonly crossing: GapRule;
    /** Case C2: a turn from a yield. */
    readonly turnFromYield: GapRule;
    /** Case F: from the major road across oncoming traffic. */
    readonly turnFromMajor: GapRule;
  };
  /** Seconds for each lane, or lane's width of median, that is crossed beyond the first (beyond the second going straight across). */
  readonly extraLaneS: ByVehicle;
  readonly gradeFromPercent: number;
  readonly vehicleLengthM: ByVehicle;
  /** Case A: legs of the approach triangle where nothing controls, by speed, ascending. */
  readonly approachLegs: readonly { readonly speedKmh: number; readonly legM: number }[];
  /** Case C1: leg on the yielding road and time to travel it, by its speed, ascending. */
  readonly yieldLegs: readonly { readonly speedKmh: number; readonly legM: number; readonly travelS: number }[];
  /** Case C2: leg on the yielding road. */
  readonly yieldTurnLegM: number;
  readonly turnOnRed: (typeof TURNS_ON_RED)[number];
  /** Signs farther than this from an intersection do not control it. */
  readonly signReachM: number;
  /** Control taken where no sign or signal is on record. */
  readonly assume: {
    /** Of roads of a lower class than another one there. */
    readonly minor: RoadControl;
    /** Of all roads where their classes rank alike, up to collectors, and from arterials on. */
    readonly equalLocal: RoadControl;
    readonly equalArterial: RoadControl;
  };
  /** What driveways, alleys and other service ways get where they meet a street. */
  readonly driveways: "corner" | "departure" | "none";
  readonly corner: {
    readonly line: (typeof CORNER_LINES)[number];
    readonly legM: number;
    /** Legs where the larger of the two roads is of a class. */
    readonly legMByClass: Readonly<Partial<Record<RoadClass, number>>>;
    readonly drivewayLegM: number;
    /** How far lot lines are taken to run behind the edge of the pavement. */
    readonly lotLineBehindEdgeM: number;
    /** Legs from the center of intersections that nothing controls; null where they have the same as others. */
    readonly uncontrolledLegM: number | null;
  };
  /** Trunks that may stand in a triangle: up to this width, and this many; null for no such limit. A width of 0 exempts none. */
  readonly trunks: { readonly maxWidthM: number | null; readonly maxCount: number | null };
  readonly source: Source;
}
