import type { ByVehicle } from "./sight-rules.ts";
import type { Source } from "./standard.ts";

/** A distance from which a face must be seen, by the speed of the road. */
export interface ViewRow {
  readonly speedKmh: number;
  readonly distanceM: number;
}

/** What a standard says about lines of sight: their heights, around curves, to the faces of signs and signals, and how much may be hidden. */
export interface ViewRules {
  /** Height of a driver's eye. */
  readonly eyeM: ByVehicle;
  /** Height at which another vehicle is looked for at intersections. */
  readonly vehicleM: number;
  readonly curves: {
    /** The clearance rule whose minimum is the top of the window around a curve. */
    readonly ruleId: string;
    readonly windowLowM: number;
    /** Height of the thing that a driver must be able to stop for. */
    readonly objectM: number;
    /** Bends of less than this in all are none. */
    readonly leastTurnDeg: number;
    /** Side friction and superelevation together: nobody drives a curve faster than they hold a car in it. */
    readonly sideFriction: number;
  };
  readonly faces: {
    readonly signRuleId: string;
    readonly signalRuleId: string;
    /** From where signs must be seen that may ask for a stop, and all others; ascending. */
    readonly critical: readonly ViewRow[];
    readonly noncritical: readonly ViewRow[];
    readonly signals: readonly ViewRow[];
    /** Heights of the lower edge of a face above the road, where none is recorded. */
    readonly bottomM: {
      readonly rural: number;
      readonly urban: number;
      readonly signalOverRoad: number;
      readonly signalBeside: number;
    };
    /** Height of the face itself. */
    readonly heightM: { readonly stop: number; readonly other: number; readonly signal: number };
    readonly widthM: number;
    /** From the edge of the roadway to the middle of a sign that is drawn on the road's line. */
    readonly besideRoadM: number;
    /** Drivers look for a face within this angle of where they drive; nearer to it they have passed it. */
    readonly coneDeg: number;
  };
  /** Hidden shares above which trees that hide something are a hazard. */
  readonly hiddenLimits: { readonly triangle: number; readonly curve: number; readonly face: number };
  readonly source: Source;
}
