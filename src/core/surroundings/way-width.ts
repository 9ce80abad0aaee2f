import type { SourceFeature } from "../model/feature.ts";
import type { RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import type { Basis } from "../model/terms.ts";
import { metersFromFeet } from "../units/length.ts";
import type { Gathering } from "./gathering.ts";
import { readLengthM, readValue, wordOf } from "./read-value.ts";

export interface WayWidth {
  readonly shown: NonNullable<SurroundingFeature["width"]>;
  readonly halfWidth: { readonly minM: number; readonly typicalM: number; readonly maxM: number };
  readonly basis: Basis;
}

/** Narrowest and widest travel lane: FHWA Mitigation Strategies for Design Exceptions, Table 3 (9 to 12 ft). */
const LANE_MIN_M = metersFromFeet(9);
const LANE_MAX_M = metersFromFeet(12);
/** A parking lane on each side: Minneapolis street design guide, 8 ft with gutter. */
const PARKING_M = metersFromFeet(8);
/** Walkway without a width: 4 ft is the accessible minimum (PROWAG R302.3, second-hand); 10 ft is common practice, no source. */
const WALK_M = { min: metersFromFeet(4), max: metersFromFeet(10) };
/** Two-way shared path without a width: 8, 10 and 14 ft (AASHTO bike guide, from memory). */
const BIKE_M = { min: metersFromFeet(8), typical: metersFromFeet(10), max: metersFromFeet(14) };
/** Widest way taken as one; above it a width is a slip of units. */
const MAX_WIDTH_M = 100;

/**
 * Width of a road given by its centerline, edge of pavement to edge of pavement: the width column, else lanes by lane width, else the
 * class's default; minimum, typical and maximum.
 */
export function roadWidth(
  gathering: Gathering,
  layer: "roads" | "paths",
  feature: SourceFeature,
  roadClass: RoadClass,
  lanes: number | null,
): WayWidth {
  const given = givenWidth(gathering, layer, feature);
  if (given !== null) return given;
  const rule = gathering.standard.widths[roadClass];
  if (lanes === null) {
    return wayWidth(rule.minM, rule.typicalM, rule.maxM, "assumed", `assumed for the class ${roadClass}`);
  }
  const parking = wordOf(readValue(gathering.columns, "roads", "parking", feature));
  const parkingM = ["no", "none", "false", "0"].includes(parking) ? 0 : 2 * PARKING_M;
  return wayWidth(
    lanes * LANE_MIN_M,
    lanes * rule.laneM,
    lanes * LANE_MAX_M + parkingM,
    "estimated",
    `${lanes} lanes of ${rule.laneM.toFixed(2)} m${parkingM === 0 ? "" : ", parking lanes not known"}`,
  );
}

/** Width of a walkway or bikeway given by its center: the width column, else assumed. */
export function pathWidth(
  gathering: Gathering,
  layer: "roads" | "paths",
  feature: SourceFeature,
  kind: "walkway" | "bikeway",
): WayWidth {
  const given = givenWidth(gathering, layer, feature);
  if (given !== null) return given;
  if (kind === "bikeway") return wayWidth(BIKE_M.min, BIKE_M.typical, BIKE_M.max, "assumed", "assumed for a bikeway");
  const typicalM = gathering.standard.walkwayWidthM;
  const minM = Math.min(typicalM, WALK_M.min);
  return wayWidth(minM, typicalM, Math.max(typicalM, WALK_M.max), "assumed", "assumed for a walkway");
}

function givenWidth(gathering: Gathering, layer: "roads" | "paths", feature: SourceFeature): WayWidth | null {
  const widthM = readLengthM(gathering.columns, layer, "width", feature, "est_width");
  if (widthM === null) return null;
  if (widthM <= MAX_WIDTH_M) return wayWidth(widthM, widthM, widthM, "measured", "width");
  gathering.find(feature, "width-impossible", "warning", {
    field: "width",
    value: widthM,
    reason: `A width of ${widthM.toFixed(0)} m is more than any way has; it is treated as unknown.`,
    whatToDo: "Check the value and the unit of the column.",
  });
  return null;
}

function wayWidth(minM: number, typicalM: number, maxM: number, basis: Basis, source: string): WayWidth {
  return {
    shown: { minM, typicalM, maxM, source },
    halfWidth: { minM: minM / 2, typicalM: typicalM / 2, maxM: maxM / 2 },
    basis,
  };
}
