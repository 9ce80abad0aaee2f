import type { SourceFeature } from "../model/feature.ts";
import type { ParkingOrientation } from "../standard/way-rules.ts";
import { parseLengthM } from "../units/parse-length.ts";
import type { Gathering } from "./gathering.ts";
import { isYes, readLengthOrZeroM, readTag, readValue, wordOf } from "./read-value.ts";

/** What a road has on one of its sides, as far as its record says. */
export interface RoadSide {
  /** `some`: recorded, but not on which side or how. */
  readonly parking: ParkingOrientation | "some" | "no" | "unknown";
  /** Parked vehicles stand in bays outside the width of the roadway. */
  readonly isBay: boolean;
  /** Width in meters where recorded. */
  readonly shoulder: number | "yes" | "no" | "unknown";
  /** A bike lane on the roadway. */
  readonly hasBikeLane: boolean;
  /** A bikeway beside the roadway. */
  readonly hasBikeway: boolean;
  /** A walkway beside the roadway; `no` also where it is mapped as a way of its own. */
  readonly walkway: "yes" | "no" | "unknown";
}

/** Left and right as one looks along the line. */
export interface RoadSides {
  readonly left: RoadSide;
  readonly right: RoadSide;
}

type Side = "left" | "right";

/**
 * What a road's record says of its sides: columns `parking`, `shoulder`, `shoulder_width`, `sidewalk`, `cycleway`, else OpenStreetMap's tags,
 * `parking:left`, `parking:both:orientation`, the older `parking:lane:right`, `shoulder`, `sidewalk:left`, `cycleway:right` and so on.
 *
 * On a one-way road a bikeway that names no side is on the side where one drives.
 */
export function readRoadSides(gathering: Gathering, feature: SourceFeature, oneway: -1 | 0 | 1): RoadSides {
  const near: Side = (gathering.options.drive === "right") === oneway >= 0 ? "right" : "left";
  const read = (side: Side): RoadSide => ({
    ...parkingOf(gathering, feature, side),
    shoulder: shoulderOf(gathering, feature, side),
    hasBikeLane: BIKE_LANES.has(cyclewayOf(gathering, feature, side, oneway === 0 ? null : near)),
    hasBikeway: BIKE_TRACKS.has(cyclewayOf(gathering, feature, side, oneway === 0 ? null : near)),
    walkway: walkwayOf(gathering, feature, side),
  });
  return { left: read("left"), right: read("right") };
}

const NO = new Set(["no", "none", "false", "0", "n", "f"]);
const BIKE_LANES = new Set(["lane", "opposite-lane", "bike-lane", "yes", "true", "y", "buffered-lane"]);
const BIKE_TRACKS = new Set(["track", "opposite-track", "sidepath", "cycle-track", "protected", "separated"]);

/** Words for how vehicles stand; OpenStreetMap's and those of city tables. */
const ORIENTATIONS: ReadonlyMap<string, ParkingOrientation> = new Map([
  ["parallel", "parallel"],
  ["diagonal", "diagonal"],
  ["angle", "diagonal"],
  ["angled", "diagonal"],
  ["perpendicular", "perpendicular"],
  ["head-in", "perpendicular"],
]);
/** Words that say where vehicles stand, or that they may not. */
const NO_PARKING = new Set([...NO, "no-parking", "no-stopping", "no-standing", "fire-lane", "separate", "on-kerb"]);
const ON_ROADWAY = new Set(["lane", "on-street", "marked", "shoulder"]);
const BAYS = new Set(["street-side", "bay", "bays", "lay-by"]);
const UNSAID = new Set(["yes", "true", "y", "t", "some", "1"]);

/** The word of a property for one side: its own, else that of both. */
function sideWord(feature: SourceFeature, base: string, side: Side, end = ""): string {
  return wordOf(readTag(feature, `${base}:${side}${end}`) ?? readTag(feature, `${base}:both${end}`));
}

/** A word that names a side or both, as seen from one: `yes` or `no`; any other as it is. */
function seenFrom(word: string, side: Side): string {
  if (word === "both") return "yes";
  return word === "left" || word === "right" ? (word === side ? "yes" : "no") : word;
}

function parkingOf(gathering: Gathering, feature: SourceFeature, side: Side): Pick<RoadSide, "parking" | "isBay"> {
  const tagged = sideWord(feature, "parking", side) || sideWord(feature, "parking:lane", side);
  const given = wordOf(readValue(gathering.columns, "roads", "parking", feature));
  const word = tagged || seenFrom(given, side);
  const named = sideWord(feature, "parking", side, ":orientation");
  const orientation = ORIENTATIONS.get(named) ?? ORIENTATIONS.get(word) ?? null;
  if (NO_PARKING.has(word)) return { parking: "no", isBay: false };
  if (BAYS.has(word)) return { parking: orientation ?? "parallel", isBay: true };
  if (ON_ROADWAY.has(word) || orientation !== null) return { parking: orientation ?? "parallel", isBay: false };
  if (given === "left" || given === "right" || given === "both") return { parking: "parallel", isBay: false };
  return { parking: UNSAID.has(word) || Number(word) > 0 ? "some" : "unknown", isBay: false };
}

function shoulderOf(gathering: Gathering, feature: SourceFeature, side: Side): RoadSide["shoulder"] {
  const width =
    readTag(feature, `shoulder:${side}:width`) ??
    readTag(feature, "shoulder:both:width") ??
    readTag(feature, "shoulder:width");
  const widthM = readLengthOrZeroM(gathering.columns, "roads", "shoulder_width", feature) ?? parseLengthM(width, "m");
  const given = wordOf(readValue(gathering.columns, "roads", "shoulder", feature));
  const word = sideWord(feature, "shoulder", side) || seenFrom(given, side);
  if (NO.has(word) || widthM === 0) return "no";
  if (widthM !== null && widthM > 0 && widthM <= MAX_SHOULDER_M) return widthM;
  return word === "" ? "unknown" : "yes";
}

/** Widest shoulder taken as one, meters; above it a width is a slip of units. */
const MAX_SHOULDER_M = 8;

function cyclewayOf(gathering: Gathering, feature: SourceFeature, side: Side, near: Side | null): string {
  const own = sideWord(feature, "cycleway", side);
  if (own !== "") return own;
  const word = wordOf(readValue(gathering.columns, "roads", "cycleway", feature));
  if (word === "left" || word === "right" || word === "both") return seenFrom(word, side) === "yes" ? "lane" : "no";
  const isOpposite = word.startsWith("opposite");
  if (near === null || word === "") return word;
  return (side === near) !== isOpposite ? word : "";
}

function walkwayOf(gathering: Gathering, feature: SourceFeature, side: Side): RoadSide["walkway"] {
  const given = wordOf(readValue(gathering.columns, "roads", "sidewalk", feature));
  const word = sideWord(feature, "sidewalk", side) || seenFrom(given, side);
  if (NO.has(word) || word === "separate") return "no";
  return isYes(word) ? "yes" : "unknown";
}
