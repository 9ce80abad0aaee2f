import type { SourceFeature } from "../model/feature.ts";
import type { RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import type { Basis } from "../model/terms.ts";
import type { WayRules, WidthRange } from "../standard/way-rules.ts";
import { parseLengthM } from "../units/parse-length.ts";
import type { Gathering } from "./gathering.ts";
import { readLengthM, readTag, readValue, textOf } from "./read-value.ts";
import type { RoadSide, RoadSides } from "./road-sides.ts";

export interface WayWidth {
  readonly shown: NonNullable<SurroundingFeature["width"]>;
  readonly halfWidth: WidthRange;
  /** Half the usual width of the travel lanes alone, meters. */
  readonly travelHalfM: number;
  readonly basis: Basis;
}

/** Widest way taken as one; above it a width is a slip of units. */
const MAX_WIDTH_M = 100;

const NOTHING: WidthRange = { minM: 0, typicalM: 0, maxM: 0 };

/**
 * Width of a road given by its centerline that is to be kept clear, edge of pavement to edge of pavement with parking lanes and recorded
 * shoulders: the width column, else lanes by lane width, else the class's default; minimum, typical and maximum.
 *
 * A recorded width holds parking lanes and bike lanes already, and not the bays beside the roadway. A class's width holds parallel parking.
 * Where the sides differ, nobody knows whether the line runs in the middle of the pavement or of the lanes: the interval holds both.
 */
export function roadWidth(
  gathering: Gathering,
  layer: "roads" | "paths",
  feature: SourceFeature,
  roadClass: RoadClass,
  lanes: number | null,
  isOneway: boolean,
  sides: RoadSides,
): WayWidth {
  const { ways, widths } = gathering.standard;
  const rule = widths[roadClass];
  const given = givenWidth(gathering, layer, feature);
  if (given !== null) {
    const outside = (side: RoadSide): WidthRange => (side.isBay ? parkingOn(ways, side) : NOTHING);
    const { minM, typicalM, maxM, source } = given.shown;
    return widened({ minM, typicalM, maxM }, outside(sides.left), outside(sides.right), given.basis, source);
  }
  if (lanes !== null) {
    const beside = (side: RoadSide): WidthRange => besideLanes(ways, roadClass, side);
    const source = `${lanes} lanes of ${rule.laneM.toFixed(2)} m${besideWords(sides)}`;
    const travel = { minM: lanes * ways.laneMinM, typicalM: lanes * rule.laneM, maxM: lanes * ways.laneMaxM };
    return widened(travel, beside(sides.left), beside(sides.right), "estimated", source);
  }
  // Freeways are one-way roads anyhow: their widths are those of one side.
  const isPart = isOneway && roadClass !== "freeway";
  const typicalM = rule.typicalM * (isPart ? ways.oneway.typicalShare : 1);
  const whole = {
    minM: Math.min(typicalM, isPart ? Math.max(ways.laneMinM, rule.minM * ways.oneway.minShare) : rule.minM),
    typicalM,
    maxM: rule.maxM,
  };
  const more = (side: RoadSide): WidthRange => beyondClass(ways, roadClass, side);
  return widened(
    whole,
    more(sides.left),
    more(sides.right),
    "assumed",
    `assumed for the class ${roadClass}${isPart ? ", one-way" : ""}`,
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
  const { ways } = gathering.standard;
  if (kind === "bikeway") return widthOf(ways.bikeway, "assumed", "assumed for a bikeway");
  return widthOf(walkwayRange(gathering), "assumed", "assumed for a walkway");
}

/** Width of a walkway without a record. */
export function walkwayRange({ standard }: Gathering): WidthRange {
  const typicalM = standard.walkwayWidthM;
  const { walkwayMinM, walkwayMaxM } = standard.ways;
  return { minM: Math.min(typicalM, walkwayMinM), typicalM, maxM: Math.max(typicalM, walkwayMaxM) };
}

/** What a fire lane keeps free: the way's own width where it has one, never less than the code's. */
export function fireLaneWidth(gathering: Gathering, own: WayWidth | null): WayWidth {
  const { fireLane } = gathering.standard.ways;
  if (own === null || own.basis === "assumed") return widthOf(fireLane, "assumed", "assumed for a fire lane");
  const { shown, basis } = own;
  if (shown.minM >= fireLane.minM) return own;
  const range = {
    minM: fireLane.minM,
    typicalM: Math.max(shown.typicalM, fireLane.minM),
    maxM: Math.max(shown.maxM, fireLane.minM),
  };
  return widthOf(range, basis, `${shown.source}, at least a fire lane's`);
}

/** The recorded width; one given as an estimate with its error. What cannot be read is told. */
function givenWidth(gathering: Gathering, layer: "roads" | "paths", feature: SourceFeature): WayWidth | null {
  const { columns, standard } = gathering;
  const widthM = readLengthM(columns, layer, "width", feature, "width:carriageway");
  if (widthM !== null && widthM <= MAX_WIDTH_M) {
    return widthOf({ minM: widthM, typicalM: widthM, maxM: widthM }, "measured", "width");
  }
  const value = readValue(columns, layer, "width", feature, "width:carriageway");
  if (widthM !== null) {
    gathering.find(feature, "width-impossible", "warning", {
      field: "width",
      value: widthM,
      reason: `A width of ${widthM.toFixed(0)} m is more than any way has; it is treated as unknown.`,
      whatToDo: "Check the value and the unit of the column.",
    });
  } else if (value !== undefined && (typeof value === "object" || Number(value) !== 0)) {
    gathering.find(feature, "width-unreadable", "info", {
      field: "width",
      value,
      reason: "The width could not be read; it is treated as unknown.",
      whatToDo: "Give a number with its unit, for example 30 ft.",
    });
  }
  const estimateM = parseLengthM(textOf(readTag(feature, "est_width")), "m");
  if (estimateM === null || !(estimateM > 0) || estimateM > MAX_WIDTH_M) return null;
  const error = standard.ways.widthEstimateError;
  const range = { minM: estimateM * (1 - error), typicalM: estimateM, maxM: estimateM * (1 + error) };
  return widthOf(range, "estimated", "width given as an estimate");
}

/** What a side adds to the travel lanes. */
function besideLanes(ways: WayRules, roadClass: RoadClass, side: RoadSide): WidthRange {
  const shoulder = shoulderOn(ways, roadClass, side);
  const parking = parkingOn(ways, side);
  const bike = side.hasBikeLane ? ways.bikeLane : NOTHING;
  const sum = (end: keyof WidthRange): number => shoulder[end] + parking[end] + bike[end];
  // Of a road that records neither, the shoulder may be wider than the parking lane that is allowed for.
  const unsaidM =
    side.shoulder === "unknown" && side.parking === "unknown" && hasShoulders(roadClass)
      ? Math.max(0, shoulderRange(ways, roadClass).maxM - parking.maxM)
      : 0;
  return { minM: sum("minM"), typicalM: sum("typicalM"), maxM: sum("maxM") + unsaidM };
}

/** What a side adds to the width of its class, which holds parallel parking on both sides. */
function beyondClass(ways: WayRules, roadClass: RoadClass, side: RoadSide): WidthRange {
  const shoulder = shoulderOn(ways, roadClass, side);
  const parking = parkingOn(ways, side);
  const { parallel } = ways.parking;
  const isMore = side.parking === "diagonal" || side.parking === "perpendicular" || side.isBay;
  const lessM = (end: keyof WidthRange): number => (side.isBay ? 0 : parallel[end]);
  return {
    minM: shoulder.minM + (isMore ? Math.max(0, parking.minM - lessM("minM")) : 0),
    typicalM: shoulder.typicalM + (isMore ? Math.max(0, parking.typicalM - lessM("typicalM")) : 0),
    maxM: (hasShoulders(roadClass) ? 0 : shoulder.maxM) + (isMore ? Math.max(0, parking.maxM - lessM("maxM")) : 0),
  };
}

function parkingOn(ways: WayRules, { parking }: RoadSide): WidthRange {
  const { parallel } = ways.parking;
  if (parking === "no") return NOTHING;
  if (parking === "unknown") return { ...NOTHING, maxM: parallel.maxM };
  return parking === "some" ? { ...parallel, minM: 0 } : ways.parking[parking];
}

function shoulderOn(ways: WayRules, roadClass: RoadClass, { shoulder }: RoadSide): WidthRange {
  if (typeof shoulder === "number") return { minM: shoulder, typicalM: shoulder, maxM: shoulder };
  return shoulder === "yes" ? shoulderRange(ways, roadClass) : NOTHING;
}

const shoulderRange = (ways: WayRules, roadClass: RoadClass): WidthRange =>
  roadClass === "freeway" ? ways.shoulder.freeway : ways.shoulder.other;

/** Classes whose greatest width holds shoulders. */
const hasShoulders = (roadClass: RoadClass): boolean => roadClass === "freeway" || roadClass === "rural-two-lane";

function besideWords({ left, right }: RoadSides): string {
  if (left.parking === "unknown" || right.parking === "unknown") return ", parking lanes not known";
  return left.parking === "no" && right.parking === "no" ? "" : ", with parking lanes";
}

/** A pavement and what is added on its sides. */
function widened(range: WidthRange, left: WidthRange, right: WidthRange, basis: Basis, source: string): WayWidth {
  const minM = range.minM + 2 * Math.min(left.minM, right.minM);
  const typicalM = range.typicalM + left.typicalM + right.typicalM;
  const maxM = range.maxM + 2 * Math.max(left.maxM, right.maxM);
  const isMore = left.maxM > 0 || right.maxM > 0;
  return {
    ...widthOf(
      { minM, typicalM, maxM: Math.max(maxM, typicalM) },
      isMore && basis === "measured" ? "estimated" : basis,
      source,
    ),
    travelHalfM: range.typicalM / 2,
  };
}

function widthOf({ minM, typicalM, maxM }: WidthRange, basis: Basis, source: string): WayWidth {
  return {
    shown: { minM, typicalM, maxM, source },
    halfWidth: { minM: minM / 2, typicalM: typicalM / 2, maxM: maxM / 2 },
    travelHalfM: typicalM / 2,
    basis,
  };
}
