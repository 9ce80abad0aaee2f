import { turnDeg } from "../../plane/bearing.ts";
import type { Centerline } from "../centerline.ts";
import { endOf, isWithLine, legBearingDeg, type RoadGraph, reverseOf, roadOfDirection } from "./road-graph.ts";

/** One leg of an intersection, as it leaves it. */
export interface Leg {
  readonly direction: number;
  readonly bearingDeg: number;
  readonly road: Centerline;
  /** Whether traffic comes to the intersection along it, and whether it leaves by it. */
  readonly arrives: boolean;
  readonly leaves: boolean;
  /** Lanes toward the intersection and away from it; 0 where a one-way street has none. */
  readonly lanesIn: number;
  readonly lanesOut: number;
  /** Percent by which it rises toward the intersection; null when unknown. */
  readonly upgradePercent: number | null;
  readonly isService: boolean;
  /** The opening of a median: the intersection on its other side, and its length in meters; null for any other leg. */
  readonly opening: { readonly node: number; readonly lengthM: number } | null;
}

/** Where roads meet: one node of the graph. The two carriageways of a divided road have one each. */
export interface Intersection {
  readonly node: number;
  readonly legs: readonly Leg[];
  /** On a roundabout, whose sight distances follow a method of their own. */
  readonly isRoundabout: boolean;
}

/** Longest opening of a median, center to center of the carriageways, meters. Our choice. */
const MAX_OPENING_M = 45;
/** Carriageways run within this of opposite, and within the second of square to the opening, degrees. Our choice. */
const MAX_OFF_PARALLEL_DEG = 40;
const MAX_OFF_SQUARE_DEG = 50;

/** The nodes at which three legs or more meet, in the order of the graph, with what each leg is and does. */
export function findIntersections(graph: RoadGraph, centerlines: readonly Centerline[]): Intersection[] {
  const found: Intersection[] = [];
  graph.leaving.forEach((leaving, node) => {
    if (leaving.length < 3) return;
    const legs = leaving.map((direction) => {
      const road = centerlines[roadOfDirection(graph, direction)]!;
      return legOf(graph, direction, road, openingOf(graph, centerlines, direction));
    });
    found.push({ node, legs, isRoundabout: legs.some(({ road }) => road.isRoundabout === true) });
  });
  return found;
}

function legOf(graph: RoadGraph, direction: number, road: Centerline, opening: Leg["opening"]): Leg {
  const { oneway, details } = road;
  const isWith = isWithLine(direction);
  const arrives = oneway === 0 || (oneway === 1) !== isWith;
  const leaves = oneway === 0 || (oneway === 1) === isWith;
  const half = Math.max(1, Math.ceil(road.lanes / 2));
  const toward = isWith ? details?.lanesBackward : details?.lanesForward;
  const away = isWith ? details?.lanesForward : details?.lanesBackward;
  const grade = details?.gradePercent ?? null;
  return {
    direction,
    bearingDeg: legBearingDeg(graph, direction),
    road,
    arrives,
    leaves,
    lanesIn: arrives ? (oneway === 0 ? (toward ?? half) : road.lanes) : 0,
    lanesOut: leaves ? (oneway === 0 ? (away ?? half) : road.lanes) : 0,
    upgradePercent: grade === null ? null : isWith ? -grade : grade,
    isService: road.roadClass === "service-alley",
    opening,
  };
}

/** Whether a direction is the way through a median: short, between two one-way carriageways of one class that run opposite ways. */
function openingOf(graph: RoadGraph, centerlines: readonly Centerline[], direction: number): Leg["opening"] {
  const start = graph.startOf[direction]!;
  let lengthM = 0;
  let current = direction;
  for (;;) {
    const from = graph.startOf[current]!;
    const to = endOf(graph, current);
    lengthM += Math.hypot(graph.xM[to]! - graph.xM[from]!, graph.yM[to]! - graph.yM[from]!);
    if (lengthM > MAX_OPENING_M || to === start) return null;
    const leaving = graph.leaving[to]!;
    if (leaving.length >= 3) break;
    const next = leaving.find((one) => one !== reverseOf(current));
    if (next === undefined) return null;
    current = next;
  }
  const end = endOf(graph, current);
  const here = carriagewayAt(graph, centerlines, start, direction);
  const there = carriagewayAt(graph, centerlines, end, reverseOf(current));
  if (here === null || there === null || here.road.roadClass !== there.road.roadClass) return null;
  if (here.road === centerlines[roadOfDirection(graph, direction)]) return null;
  const off = 180 - Math.abs(turnDeg(here.bearingDeg, there.bearingDeg));
  return off <= MAX_OFF_PARALLEL_DEG ? { node: end, lengthM } : null;
}

/** The one-way road that passes through a node square to a direction, with the bearing in which its traffic leaves; null for none. */
function carriagewayAt(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  node: number,
  across: number,
): { road: Centerline; bearingDeg: number } | null {
  const acrossDeg = legBearingDeg(graph, across);
  const oneways = graph.leaving[node]!.filter(
    (direction) => direction !== across && centerlines[roadOfDirection(graph, direction)]!.oneway !== 0,
  );
  const isOut = (direction: number): boolean =>
    (centerlines[roadOfDirection(graph, direction)]!.oneway === 1) === isWithLine(direction);
  for (const out of oneways.filter(isOut)) {
    const outDeg = legBearingDeg(graph, out);
    if (Math.abs(Math.abs(turnDeg(acrossDeg, outDeg)) - 90) > MAX_OFF_SQUARE_DEG) continue;
    for (const into of oneways.filter((direction) => !isOut(direction))) {
      const off = 180 - Math.abs(turnDeg(outDeg, legBearingDeg(graph, into)));
      if (off <= MAX_OFF_PARALLEL_DEG) return { road: centerlines[roadOfDirection(graph, out)]!, bearingDeg: outDeg };
    }
  }
  return null;
}
