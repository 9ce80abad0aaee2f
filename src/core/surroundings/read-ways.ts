import type { Position } from "geojson";
import { columnSource, columnUnit } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import type { Basis } from "../model/terms.ts";
import { Neighborhood } from "../plane/neighborhood.ts";
import { planeOf, toPlane } from "../plane/plane.ts";
import { ShapesBuilder } from "../plane/shapes-builder.ts";
import { parseDecimal } from "../units/parse-length.ts";
import { fastestSpeedKmh } from "./fastest-speed.ts";
import { type Gathering, plainFeature } from "./gathering.ts";
import { ringsOf } from "./read-buildings.ts";
import { isYes, readTag, readValue, textOf, wordOf } from "./read-value.ts";
import { meaningOfClass } from "./road-class.ts";
import type { WayKind } from "./surroundings.ts";
import { pathWidth, roadWidth, type WayWidth } from "./way-width.ts";

/** A road centerline as the sight triangles need it. */
export interface Centerline {
  readonly id: string;
  readonly name: string | null;
  readonly lines: readonly (readonly Position[])[];
  readonly roadClass: RoadClass;
  readonly halfWidthM: number;
  readonly laneM: number;
  /** Lanes in both directions together. */
  readonly lanes: number;
  readonly speedKmh: number;
  readonly speedBasis: Basis;
  /** 1: traffic runs with the line only, -1: against it only, 0: both. */
  readonly oneway: -1 | 0 | 1;
  /** 0 at ground level; ways of different levels do not meet where they cross. */
  readonly level: number;
}

interface Way {
  readonly feature: SourceFeature;
  readonly shown: SurroundingFeature;
  readonly kind: WayKind;
  readonly rings: readonly (readonly Position[])[] | null;
  readonly lines: readonly (readonly Position[])[] | null;
  readonly width: WayWidth | null;
}

/**
 * Adds the features of the roads or the paths layer and answers the centerlines of its roads. A feature is what its class says, in either
 * layer: a footway among the roads is a walkway. A centerline that mostly runs on a traveled way given as an area is not widened: the
 * surveyed edge outranks any width.
 */
export function readWays(
  gathering: Gathering,
  layer: "roads" | "paths",
  features: readonly SourceFeature[],
): { centerlines: Centerline[]; hasBusColumn: boolean } {
  const ways: Way[] = [];
  const centerlines: Centerline[] = [];
  const unknownClasses = new Map<string, number>();
  let hasBusColumn = false;
  for (const feature of features) {
    const rings = ringsOf(feature);
    const lines = linesOf(feature);
    if (rings === null && lines === null) {
      gathering.leaveOutGeometry(feature, "ways as LineString, MultiLineString, Polygon or MultiPolygon");
      continue;
    }
    if (gathering.isTooWide(feature, rings ?? lines!, rings !== null)) continue;
    hasBusColumn ||=
      layer === "roads" && Object.hasOwn(feature.properties, columnSource(gathering.columns, "roads", "bus").column);
    const read = readWay(gathering, layer, feature, rings, lines, unknownClasses);
    gathering.features.push(read.shown);
    if (read.way !== null) ways.push(read.way);
    if (read.centerline !== null) centerlines.push(read.centerline);
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
  return { centerlines, hasBusColumn };
}

function readWay(
  gathering: Gathering,
  layer: "roads" | "paths",
  feature: SourceFeature,
  rings: Way["rings"],
  lines: Way["lines"],
  unknownClasses: Map<string, number>,
): { shown: SurroundingFeature; way: Way | null; centerline: Centerline | null } {
  const { columns, standard } = gathering;
  const id = gathering.idOf(feature);
  const name = textOf(readValue(columns, layer, "name", feature, "ref"));
  const given = readValue(columns, layer, "class", feature, "highway", "footway");
  const meaning = meaningOfClass(given) ?? fallback(layer, given, rings !== null, unknownClasses);
  if (meaning.way === "none") {
    gathering.find(feature, "way-not-in-use", "info", {
      field: "class",
      value: given,
      reason: "The way is not in use for traffic and is not measured.",
      whatToDo: "Correct its class if it is.",
    });
    return { shown: plainFeature(id, feature, name, null), way: null, centerline: null };
  }
  const level = levelOf(gathering, layer, feature);
  if (level !== 0) {
    gathering.find(feature, "way-not-at-ground", "info", {
      reason: "The way runs on a bridge or in a tunnel; trees beside it are not measured against it.",
      whatToDo: "Correct its layer, bridge or tunnel value if it runs on the ground.",
    });
  }
  if (meaning.way === "path") {
    const isShared = wordOf(readTag(feature, "bicycle")) === "designated";
    const kind = isShared ? "bikeway" : meaning.kind;
    const width = lines === null ? null : pathWidth(gathering, layer, feature, kind);
    const shown = { ...plainFeature(id, feature, name, level === 0 ? kind : null), width: width?.shown ?? null };
    return { shown, way: level === 0 ? { feature, shown, kind, rings, lines, width } : null, centerline: null };
  }

  const { roadClass } = meaning;
  const isBus = meaning.isBus || isYes(readValue(columns, "roads", "bus", feature));
  const kind: WayKind = isBus ? "bus-route" : "roadway";
  const speedGiven = readValue(columns, "roads", "speed", feature, "maxspeed");
  const speed = fastestSpeedKmh(speedGiven, columnUnit(columns, "roads", "speed"));
  if (speed === null && speedGiven !== undefined) {
    gathering.find(feature, "speed-unreadable", "info", {
      field: "speed",
      value: speedGiven,
      reason: "The speed could not be read; the class's default is used.",
      whatToDo: "Give a number with its unit, for example 25 mph.",
    });
  }
  const lanes = countOf(readValue(columns, "roads", "lanes", feature));
  const width = lines === null ? null : roadWidth(gathering, layer, feature, roadClass, lanes);
  const isClassed = given !== undefined || lines !== null;
  const shown: SurroundingFeature = {
    ...plainFeature(id, feature, name, level === 0 ? kind : null),
    width: width?.shown ?? null,
    roadClass: isClassed ? roadClass : null,
    speedKmh: speed ?? (isClassed ? standard.widths[roadClass].speedKmh : null),
    speedSource: speed !== null ? "speed" : isClassed ? `assumed for the class ${roadClass}` : null,
    lanes,
  };
  const way: Way | null = level === 0 ? { feature, shown, kind, rings, lines, width } : null;
  if (lines === null || width === null) return { shown, way, centerline: null };
  const laneM = Math.min(standard.widths[roadClass].laneM, (2 * width.halfWidth.typicalM) / (lanes ?? 2));
  const centerline: Centerline = {
    id,
    name,
    lines,
    roadClass,
    halfWidthM: width.halfWidth.typicalM,
    laneM,
    lanes: lanes ?? 2,
    speedKmh: speed ?? standard.widths[roadClass].speedKmh,
    speedBasis: speed === null ? "assumed" : "measured",
    oneway: onewayOf(readValue(columns, "roads", "oneway", feature)),
    level,
  };
  return { shown, way, centerline };
}

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

/** Samples along a line by which it is found to run on an area. */
const COVER_SAMPLES = 9;

/** Answers whether at least half of a line's sample points lie in an area of the same kind of way. */
function surveyedCover(ways: readonly Way[]): (way: Way) => boolean {
  const areas = ways.filter((way) => way.rings !== null);
  if (areas.length === 0) return () => false;
  const builder = new ShapesBuilder();
  areas.forEach((way, owner) => {
    builder.addArea(owner, way.rings!);
  });
  const planes = builder.finish();
  const around = new Neighborhood();
  return (way) => {
    let inside = 0;
    let samples = 0;
    for (const line of way.lines!) {
      const step = Math.max(1, Math.ceil((line.length - 1) / COVER_SAMPLES));
      for (let at = 0; at + 1 < line.length; at += step) {
        const [a, b] = [line[at]!, line[at + 1]!];
        const lonDeg = (a[0]! + b[0]!) / 2;
        const shapes = planes.get(planeOf(lonDeg));
        samples += 1;
        if (shapes === undefined) continue;
        const [xM, yM] = toPlane(shapes.plane, lonDeg, (a[1]! + b[1]!) / 2);
        around.search(shapes, xM, yM, 0);
        for (let position = 0; position < around.itemCount; position += 1) {
          around.load(position, 0);
          if (!around.isInside || isPath(areas[shapes.itemOwner[around.items[position]!]!]!.kind) !== isPath(way.kind))
            continue;
          inside += 1;
          break;
        }
      }
    }
    return samples > 0 && inside * 2 >= samples;
  };
}

const isPath = (kind: WayKind): boolean => kind === "walkway" || kind === "bikeway";

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

function countOf(value: unknown): number | null {
  const count = typeof value === "number" ? value : parseDecimal(textOf(value) ?? "");
  return count !== null && count >= 1 && count <= 20 ? Math.floor(count) : null;
}

function onewayOf(value: unknown): -1 | 0 | 1 {
  const word = wordOf(value);
  if (word === "-1" || word === "reverse" || word === "tf") return -1;
  return word === "ft" || (typeof value !== "number" ? isYes(value) : value === 1) ? 1 : 0;
}
