import type { Position } from "geojson";
import { columnSource } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import { parseDecimal } from "../units/parse-length.ts";
import { addBesideRoads } from "./beside-roads.ts";
import type { Centerline } from "./centerline.ts";
import { fireLaneOf, kindWithFireLane } from "./fire-lane.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { ringsOf } from "./read-buildings.ts";
import { readRoad } from "./read-road.ts";
import { isYes, readTag, readValue, textOf, wordOf } from "./read-value.ts";
import { meaningOfClass } from "./road-class.ts";
import { surveyedCover } from "./surveyed-cover.ts";
import type { Way } from "./way.ts";
import { fireLaneWidth, pathWidth } from "./way-width.ts";

export type { Centerline } from "./centerline.ts";

/** What a layer of ways amounts to beside its features. */
export interface WaysRead {
  readonly centerlines: Centerline[];
  /** Whether the data say which roads are bus routes, and which ways are fire lanes. */
  readonly hasBusColumn: boolean;
  readonly saysFireLanes: boolean;
}

/**
 * Adds the features of the roads or the paths layer and answers the centerlines of its roads. A feature is what its class says, in either
 * layer: a footway among the roads is a walkway. A centerline that mostly runs on a traveled way given as an area is not widened: the
 * surveyed edge outranks any width. Where no paths are given, what a road records beside it is added as the standard says.
 */
export function readWays(
  gathering: Gathering,
  layer: "roads" | "paths",
  features: readonly SourceFeature[],
  arePathsGiven = true,
): WaysRead {
  const ways: Way[] = [];
  const centerlines: Centerline[] = [];
  const unknownClasses = new Map<string, number>();
  let hasBusColumn = false;
  let saysFireLanes = false;
  for (const feature of features) {
    const rings = ringsOf(feature);
    const lines = linesOf(feature);
    if (rings === null && lines === null) {
      gathering.leaveOutGeometry(feature, "ways as LineString, MultiLineString, Polygon or MultiPolygon");
      continue;
    }
    if (gathering.isTooWide(feature, rings ?? lines!, rings !== null)) continue;
    hasBusColumn ||= layer === "roads" && hasColumn(gathering, feature, "bus");
    saysFireLanes ||= layer === "roads" && hasColumn(gathering, feature, "fire_lane");
    const read = readWay(gathering, layer, feature, rings, lines, unknownClasses);
    gathering.features.push(read.shown);
    if (read.way !== null) ways.push(read.way);
    if (read.centerline !== null) centerlines.push(read.centerline);
    saysFireLanes ||= read.isFireLane;
  }
  for (const [name, count] of unknownClasses) {
    gathering.findings.push({
      code: layer === "roads" ? "road-class-unknown" : "path-class-unknown",
      severity: layer === "roads" ? "warning" : "info",
      layer,
      file: null,
      feature: null,
      field: "class",
      value: name === "" ? null : name,
      reason:
        layer === "roads"
          ? `${count} roads have ${name === "" ? "no class" : `the unknown class "${name}"`}; they are taken as local residential streets.`
          : `${count} paths have ${name === "" ? "no class" : `the unknown class "${name}"`}; they are taken as walkways.`,
      whatToDo: "Map the column's words to classes in the column map.",
    });
  }
  addEnvelopes(gathering, layer, ways);
  if (!arePathsGiven) addBesideRoads(gathering, ways);
  return { centerlines, hasBusColumn, saysFireLanes };
}

const hasColumn = (gathering: Gathering, feature: SourceFeature, field: "bus" | "fire_lane"): boolean =>
  Object.hasOwn(feature.properties, columnSource(gathering.columns, "roads", field).column);

function readWay(
  gathering: Gathering,
  layer: "roads" | "paths",
  feature: SourceFeature,
  rings: Way["rings"],
  lines: Way["lines"],
  unknownClasses: Map<string, number>,
): { shown: SurroundingFeature; way: Way | null; centerline: Centerline | null; isFireLane: boolean } {
  const { columns, standard } = gathering;
  const id = gathering.idOf(feature);
  const name = textOf(readValue(columns, layer, "name", feature, "ref"));
  const given = readValue(columns, layer, "class", feature, "highway", "area:highway", "footway");
  const meaning = meaningOfClass(given) ?? fallback(layer, given, rings !== null, unknownClasses);
  if (meaning.way === "none" || isYes(readTag(feature, "indoor"))) {
    gathering.find(feature, "way-not-in-use", "info", {
      field: "class",
      value: given,
      reason: "The way is not in use for traffic and is not measured.",
      whatToDo: "Correct its class if it is.",
    });
    return { shown: plainFeature(id, feature, name, null), way: null, centerline: null, isFireLane: false };
  }
  const level = levelOf(gathering, layer, feature);
  if (level !== 0) {
    gathering.find(feature, "way-not-at-ground", "info", {
      reason: "The way runs on a bridge or in a tunnel; trees beside it are not measured against it.",
      whatToDo: "Correct its layer, bridge or tunnel value if it runs on the ground.",
    });
  }
  const fireLane = fireLaneOf(gathering, feature, wordOf(given));
  const isFireLane = fireLane !== "no";
  if (meaning.way === "path") {
    const isShared = BIKE_USE.has(wordOf(readTag(feature, "bicycle")));
    const own = isShared ? "bikeway" : meaning.kind;
    const kind = kindWithFireLane(standard, own, fireLane);
    const ownWidth = lines === null ? null : pathWidth(gathering, layer, feature, own);
    const width = kind === "fire-lane" && ownWidth !== null ? fireLaneWidth(gathering, ownWidth) : ownWidth;
    const shown = { ...plainFeature(id, feature, name, level === 0 ? kind : null), width: width?.shown ?? null };
    const way = level === 0 ? { shown, kind, rings, lines, width, sides: null } : null;
    return { shown, way, centerline: null, isFireLane };
  }
  const { roadClass, isBus } = meaning;
  const isClassed = given !== undefined || lines !== null;
  const road = { layer, feature, id, name, roadClass, isClassed, isBus, fireLane, level, rings, lines };
  return { ...readRoad(gathering, road), isFireLane };
}

/** Words of OpenStreetMap's `bicycle` that make a path one for bicycles. */
const BIKE_USE = new Set(["designated", "official"]);

function fallback(
  layer: "roads" | "paths",
  given: unknown,
  isArea: boolean,
  unknownClasses: Map<string, number>,
): NonNullable<ReturnType<typeof meaningOfClass>> {
  // An area without a class is no doubt: its edges are surveyed, and no width or speed is taken from a class.
  if (given !== undefined || (layer === "roads" && !isArea)) {
    const word = textOf(given) ?? "";
    unknownClasses.set(word, (unknownClasses.get(word) ?? 0) + 1);
  }
  return layer === "roads"
    ? { way: "road", roadClass: "local-residential", isBus: false }
    : { way: "path", kind: "walkway" };
}

function addEnvelopes(gathering: Gathering, layer: "roads" | "paths", ways: readonly Way[]): void {
  const isOnArea = surveyedCover(ways);
  for (const way of ways) {
    const isCovered = way.lines !== null && isOnArea(way);
    const halfWidth = way.width?.halfWidth ?? { minM: 0, typicalM: 0, maxM: 0 };
    const envelope = gathering.addEnvelope({
      type: "way",
      withLayer: layer,
      withId: way.shown.id,
      withName: way.shown.name,
      kind: way.kind,
      shape: way.rings === null ? "line" : "area",
      halfWidth,
      widthBasis: way.width?.basis ?? "measured",
      roadClass: way.shown.roadClass,
      speedKmh: way.shown.speedKmh,
      isCovered,
    });
    if (way.rings !== null) gathering.shapes.addArea(envelope, way.rings);
    else gathering.shapes.addLines(envelope, way.lines!, halfWidth.maxM);
  }
}

function linesOf(feature: SourceFeature): readonly (readonly Position[])[] | null {
  if (feature.geometry.type === "LineString") return [feature.geometry.coordinates];
  return feature.geometry.type === "MultiLineString" ? feature.geometry.coordinates : null;
}

/** 0 on the ground; the layer number, else 1 for a bridge and -1 for a tunnel. A passage through a building is on the ground. */
function levelOf(gathering: Gathering, layer: "roads" | "paths", feature: SourceFeature): number {
  const given = readValue(gathering.columns, layer, "layer", feature);
  const level = typeof given === "number" ? given : parseDecimal(textOf(given) ?? "");
  if (level !== null && level !== 0) return level;
  const tunnel = wordOf(readTag(feature, "tunnel"));
  if (isSet(wordOf(readTag(feature, "bridge")))) return 1;
  return isSet(tunnel) && tunnel !== "building-passage" ? -1 : 0;
}

const isSet = (word: string): boolean => word !== "" && !["no", "n", "false", "f", "0"].includes(word);
