/** A width that is known by its least, its usual and its greatest value, meters. */
export interface WidthRange {
  readonly minM: number;
  readonly typicalM: number;
  readonly maxM: number;
}

/** How vehicles stand in a parking lane, for the width it takes. */
export type ParkingOrientation = "parallel" | "diagonal" | "perpendicular";

/** Widths of what a road is made of and of what runs beside it, where its own record does not say. */
export interface WayRules {
  /** Narrowest and widest travel lane. */
  readonly laneMinM: number;
  readonly laneMaxM: number;
  /** A bike lane on the roadway, on one side. */
  readonly bikeLane: WidthRange;
  /** A parking lane on one side. */
  readonly parking: Readonly<Record<ParkingOrientation, WidthRange>>;
  /** A shoulder on one side. */
  readonly shoulder: { readonly freeway: WidthRange; readonly other: WidthRange };
  /** What a fire lane keeps free; the least holds even where its pavement is narrower. */
  readonly fireLane: WidthRange;
  /** Ends of the width of a walkway; the usual one is the standard's `walkwayWidthM`. */
  readonly walkwayMinM: number;
  readonly walkwayMaxM: number;
  /** A two-way bikeway or shared path. */
  readonly bikeway: WidthRange;
  /** Of a class's least and usual width, what a one-way road of it has. */
  readonly oneway: { readonly minShare: number; readonly typicalShare: number };
  /** Error of a width given as an estimate, as a share of it. */
  readonly widthEstimateError: number;
  readonly beside: {
    /** Walkways and bikeways beside roads where no layer has them: those that the road records, on both sides of every street, or none. */
    readonly walkways: "recorded" | "assumed" | "off";
    /** From the edge of the roadway to what runs beside it. */
    readonly strip: WidthRange;
    /** A bikeway beside the roadway, one direction of travel. */
    readonly bikeway: WidthRange;
  };
}
