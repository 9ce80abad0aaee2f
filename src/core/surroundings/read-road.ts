import { columnUnit } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { RoadAcross, RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import { parseDecimal } from "../units/parse-length.ts";
import type { Centerline } from "./centerline.ts";
import { fastestSpeedKmh } from "./fastest-speed.ts";
import { kindWithFireLane } from "./fire-lane.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { isYes, readTag, readValue, textOf, wordOf } from "./read-value.ts";
import { type RoadSide, type RoadSides, readRoadSides } from "./road-sides.ts";
import { roadSightDetails } from "./sight/road-sight-details.ts";
import type { WayKind } from "./surroundings.ts";
import type { Way } from "./way.ts";
import { fireLaneWidth, roadWidth } from "./way-width.ts";

/** What is known of a road before its own members are read. */
export interface RoadGiven {
  readonly layer: "roads" | "paths";
  readonly feature: SourceFeature;
  readonly id: string;
  readonly name: string | null;
  readonly roadClass: RoadClass;
  /** Whether the class was given or had to be taken for a line. */
  readonly isClassed: boolean;
  readonly isBus: boolean;
  readonly fireLane: "only" | "too" | "no";
  readonly level: number;
  readonly rings: Way["rings"];
  readonly lines: Way["lines"];
}

/** A road as it is shown, as a way where it runs on the ground, and as a centerline where it is a line. */
export function readRoad(
  gathering: Gathering,
  given: RoadGiven,
): { shown: SurroundingFeature; way: Way | null; centerline: Centerline | null } {
  const { columns, standard } = gathering;
  const { layer, feature, id, name, roadClass, level, rings, lines } = given;
  const own: WayKind = given.isBus || isBusRoute(gathering, feature) ? "bus-route" : "roadway";
  const kind = kindWithFireLane(standard, own, given.fireLane);
  const speed = speedOf(gathering, feature);
  const lanes = lanesOf(gathering, feature);
  const isRoundabout = ROUNDABOUTS.has(wordOf(readTag(feature, "junction")));
  // In OpenStreetMap both imply it.
  const isOneway = isRoundabout || wordOf(readTag(feature, "highway")) === "motorway";
  const oneway = onewayOf(readValue(columns, "roads", "oneway", feature) ?? (isOneway ? "yes" : undefined));
  const sides = readRoadSides(gathering, feature, oneway);
  const ownWidth = lines === null ? null : roadWidth(gathering, layer, feature, roadClass, lanes, oneway !== 0, sides);
  const width = kind === "fire-lane" && ownWidth !== null ? fireLaneWidth(gathering, ownWidth) : ownWidth;
  const shown: SurroundingFeature = {
    ...plainFeature(id, feature, name, level === 0 ? kind : null),
    width: width?.shown ?? null,
    roadClass: given.isClassed ? roadClass : null,
    speedKmh: speed ?? (given.isClassed ? standard.widths[roadClass].speedKmh : null),
    speedSource: speed !== null ? "speed" : given.isClassed ? `assumed for the class ${roadClass}` : null,
    lanes,
  };
  if (lines === null || ownWidth === null) {
    return { shown, way: level === 0 ? { shown, kind, rings, lines, width, sides } : null, centerline: null };
  }
  const laneM = Math.min(standard.widths[roadClass].laneM, (2 * ownWidth.travelHalfM) / (lanes ?? 2));
  const line: SurroundingFeature = { ...shown, across: acrossOf(oneway, laneM, sides) };
  const way: Way | null = level === 0 ? { shown: line, kind, rings, lines, width, sides } : null;
  const centerline: Centerline = {
    id,
    name,
    lines,
    roadClass,
    halfWidthM: ownWidth.travelHalfM,
    laneM,
    widthBasis: ownWidth.basis,
    lanes: lanes ?? 2,
    speedKmh: speed ?? standard.widths[roadClass].speedKmh,
    speedBasis: speed === null ? "assumed" : "measured",
    oneway,
    level,
    sides,
    isRoundabout,
    details: roadSightDetails(gathering, feature),
  };
  return { shown: line, way, centerline };
}

function acrossOf(oneway: -1 | 0 | 1, laneM: number, { left, right }: RoadSides): RoadAcross {
  const parking = ({ parking: word, isBay }: RoadSide): boolean | null =>
    word === "unknown" ? null : word !== "no" && !isBay;
  const shoulderM = ({ shoulder }: RoadSide): number | null =>
    typeof shoulder === "number" ? shoulder : shoulder === "no" ? 0 : null;
  return {
    oneway,
    laneM,
    parking: { left: parking(left), right: parking(right) },
    shoulderM: { left: shoulderM(left), right: shoulderM(right) },
  };
}

const ROUNDABOUTS = new Set(["roundabout", "circular", "mini-roundabout"]);

/** Words that make a bus way of a tag; `no` and the like do not. */
const BUS = new Set(["yes", "designated", "official", "only", "lane", "opposite-lane", "both-lanes"]);
const BUS_TAGS = ["bus", "psv", "busway", "busway:left", "busway:right", "busway:both"] as const;

/** Whether buses run there: the column `bus`, else OpenStreetMap's tags for buses, bus lanes and public service vehicles. */
function isBusRoute(gathering: Gathering, feature: SourceFeature): boolean {
  const given = readValue(gathering.columns, "roads", "bus", feature);
  if (isYes(given) || BUS.has(wordOf(given))) return true;
  if (BUS_TAGS.some((tag) => BUS.has(wordOf(readTag(feature, tag))))) return true;
  return isYes(readTag(feature, "lanes:bus")) || isYes(readTag(feature, "lanes:psv"));
}

function speedOf(gathering: Gathering, feature: SourceFeature): number | null {
  const { columns } = gathering;
  const given = readValue(columns, "roads", "speed", feature, "maxspeed");
  const speed = fastestSpeedKmh(given, columnUnit(columns, "roads", "speed"));
  if (speed === null && given !== undefined) {
    gathering.find(feature, "speed-unreadable", "info", {
      field: "speed",
      value: given,
      reason: "The speed could not be read; the class's default is used.",
      whatToDo: "Give a number with its unit, for example 25 mph.",
    });
  }
  return speed;
}

/** Lanes of both directions: the column, else the sum of OpenStreetMap's lanes by direction; null when unknown. */
function lanesOf(gathering: Gathering, feature: SourceFeature): number | null {
  const given = readValue(gathering.columns, "roads", "lanes", feature);
  const lanes = countOf(given);
  if (lanes !== null) return lanes;
  if (given !== undefined && Number(given) !== 0) {
    gathering.find(feature, "lanes-unreadable", "info", {
      field: "lanes",
      value: given,
      reason: "The number of lanes could not be read; it is treated as unknown.",
      whatToDo: "Give a whole number of lanes in both directions together.",
    });
  }
  const parts = ["lanes:forward", "lanes:backward", "lanes:both_ways"].map((tag) => countOf(readTag(feature, tag)));
  // One direction alone says nothing of the other.
  if (parts[0] === null || parts[1] === null) return null;
  return parts.reduce<number>((sum, count) => sum + (count ?? 0), 0);
}

function countOf(value: unknown): number | null {
  const count = typeof value === "number" ? value : parseDecimal(textOf(value) ?? "");
  return count !== null && count >= 1 && count <= 20 ? Math.floor(count) : null;
}

function onewayOf(value: unknown): -1 | 0 | 1 {
  const word = wordOf(value);
  if (word === "-1" || word === "reverse" || word === "tf") return -1;
  return word === "ft" || (typeof value !== "number" ? isYes(value) : value === 1) ? 1 : 0;
}
