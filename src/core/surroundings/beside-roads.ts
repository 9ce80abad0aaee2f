import type { Geometry, Position } from "geojson";
import type { RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import type { WidthRange } from "../standard/way-rules.ts";
import type { Gathering } from "./gathering.ts";
import { lineBeside } from "./line-beside.ts";
import type { RoadSide } from "./road-sides.ts";
import type { WayKind } from "./surroundings.ts";
import type { Way } from "./way.ts";
import { walkwayRange } from "./way-width.ts";

/** Classes that have walkways where the standard has them assumed. */
const STREETS: ReadonlySet<RoadClass> = new Set(["major-arterial", "minor-arterial", "collector", "local-residential"]);

type BesideKind = Extract<WayKind, "walkway" | "bikeway">;

/** One walkway or bikeway beside a road: how far its near edge is from the road's center, and how wide it is. */
interface Beside {
  readonly kind: BesideKind;
  readonly side: "left" | "right";
  readonly isRecorded: boolean;
  readonly nearM: WidthRange;
  readonly widthM: WidthRange;
}

/**
 * Adds the walkways and bikeways that roads record beside them, or that the standard has assumed beside every street, where no layer has
 * them as ways of their own. Their place comes from the road's width and the standard's planting strip, so their conflicts are at most
 * `probable`, and only `possible` where nothing but the class says how wide the road is or nobody recorded them.
 *
 * A kind of which the roads layer has ways of its own is not added, so that nothing counts twice.
 */
export function addBesideRoads(gathering: Gathering, ways: readonly Way[]): void {
  const { walkways } = gathering.standard.ways.beside;
  if (walkways === "off") return;
  const isOwn = (kind: BesideKind): boolean => ways.some((way) => way.kind === kind);
  const wanted = new Set<WayKind>((["walkway", "bikeway"] as const).filter((kind) => !isOwn(kind)));
  const counts = { walkway: 0, bikeway: 0 };
  for (const way of ways) {
    for (const beside of besidesOf(gathering, way, walkways === "assumed")) {
      if (wanted.has(beside.kind) && addBeside(gathering, way, beside)) counts[beside.kind] += 1;
    }
  }
  for (const kind of ["walkway", "bikeway"] as const) {
    if (counts[kind] === 0) continue;
    gathering.findings.push({
      code: `${kind}s-beside-roads`,
      severity: "info",
      layer: "roads",
      file: null,
      feature: null,
      field: kind === "walkway" ? "sidewalk" : "cycleway",
      value: null,
      reason: `${counts[kind]} ${kind}s are placed beside roads, ${walkways === "assumed" && kind === "walkway" ? "assumed or " : ""}recorded there but not mapped; their place is assumed.`,
      whatToDo: "Give the paths layer: it outranks them. The standard's ways.beside.walkways switches them off.",
    });
  }
}

function besidesOf(gathering: Gathering, way: Way, isAssumed: boolean): Beside[] {
  const { width, sides } = way;
  if (width === null || sides === null || way.lines === null) return [];
  const { strip, bikeway } = gathering.standard.ways.beside;
  const isStreet = way.shown.roadClass !== null && STREETS.has(way.shown.roadClass);
  return (["left", "right"] as const).flatMap((side) => {
    const has: RoadSide = sides[side];
    const stripNearM = sum(width.halfWidth, strip);
    const found: Beside[] = [];
    if (has.hasBikeway) found.push({ kind: "bikeway", side, isRecorded: true, nearM: stripNearM, widthM: bikeway });
    if (has.walkway === "yes" || (has.walkway === "unknown" && isAssumed && isStreet)) {
      const nearM = has.hasBikeway ? sum(stripNearM, bikeway) : stripNearM;
      const widthM = walkwayRange(gathering);
      found.push({ kind: "walkway", side, isRecorded: has.walkway === "yes", nearM, widthM });
    }
    return found;
  });
}

/** Adds one as a line along its own middle; false where the road's line has no length. */
function addBeside(gathering: Gathering, way: Way, beside: Beside): boolean {
  const { kind, side, nearM, widthM } = beside;
  const centerM = nearM.typicalM + widthM.typicalM / 2;
  const lines = way
    .lines!.map((line) => lineBeside(line, side === "left" ? centerM : -centerM))
    .filter((line) => line.length > 1);
  if (lines.length === 0) return false;
  // Nothing is sure to be its surface; at most it reaches from the nearest near edge to the farthest far one.
  const mostM = Math.max(centerM - nearM.minM, nearM.maxM + widthM.maxM - centerM);
  const halfWidth = { minM: 0, typicalM: widthM.typicalM / 2, maxM: mostM };
  const source = `${beside.isRecorded ? "recorded" : "assumed"} beside the road, ${centerM.toFixed(1)} m from its center by assumption`;
  const shown: SurroundingFeature = {
    ...way.shown,
    id: `${way.shown.id}/${kind}-${side}`,
    kind,
    geometry: geometryOf(lines),
    width: { minM: 2 * halfWidth.minM, typicalM: widthM.typicalM, maxM: 2 * mostM, source },
    roadClass: null,
    speedKmh: null,
    speedSource: null,
    lanes: null,
  };
  gathering.features.push(shown);
  const isPlaced = beside.isRecorded && way.width!.basis !== "assumed";
  const envelope = gathering.addEnvelope({
    type: "way",
    withLayer: "roads",
    withId: shown.id,
    withName: shown.name,
    kind,
    shape: "line",
    halfWidth,
    widthBasis: "assumed",
    roadClass: null,
    speedKmh: null,
    isCovered: false,
    beside: {
      certainty: isPlaced ? "probable" : "possible",
      doubt: beside.isRecorded
        ? `The ${kind} is recorded beside the road; how far from it is assumed.`
        : `That there is a ${kind} beside the road, and where, is assumed.`,
    },
  });
  gathering.shapes.addLines(envelope, lines, halfWidth.maxM);
  return true;
}

const sum = (a: WidthRange, b: WidthRange): WidthRange => ({
  minM: a.minM + b.minM,
  typicalM: a.typicalM + b.typicalM,
  maxM: a.maxM + b.maxM,
});

function geometryOf(lines: readonly Position[][]): Geometry {
  return lines.length === 1
    ? { type: "LineString", coordinates: lines[0]! }
    : { type: "MultiLineString", coordinates: [...lines] };
}
