import type { SightArea } from "../../../model/surroundings.ts";
import { planeOf, toLonLat } from "../../../plane/plane.ts";
import type { Standard } from "../../../standard/standard.ts";
import { stoppingSightDistanceFt } from "../../../standard/stopping-sight-distance-ft.ts";
import { feetFromMeters, KMH_PER_MPH, metersFromFeet } from "../../../units/length.ts";
import type { Centerline } from "../../centerline.ts";
import type { BuiltView } from "../built-view.ts";
import { roundUpTo5 } from "../intersection-sight-distance-ft.ts";
import { lineLengthM, lineStretch } from "../line-stretch.ts";
import { offsetLine } from "../offset-line.ts";
import type { PlanePoint } from "../plane-point.ts";
import { endOf, isWithLine, type RoadGraph, roadOfDirection } from "../road-graph.ts";
import { findCurves, type HorizontalCurve } from "./find-curves.ts";
import { horizontalSightlineOffsetM } from "./horizontal-sightline-offset-m.ts";
import { insideLaneM, roundedLine } from "./inside-lane.ts";
import { roadChains } from "./road-chains.ts";
import { sightAroundCurve } from "./sight-around-curve.ts";

/** A sight line this little beyond the edge of the road, meters, is on it: widths are no better known. */
const BEYOND_EDGE_M = 0.5;
/** Steeper downgrades than this, percent, are taken for it: no street is. */
const STEEPEST_PERCENT = 20;
/** The lane goes on straight this far past both ends of the lines, meters, so that rounding loses none. */
const SPARE_M = 1;

/**
 * The views around the horizontal curves of a plane's roads for which stopping sight distance asks for ground beyond the roadway's own edge. The
 * driver is in the inside lane, at the road's speed or the fastest at which the curve can be driven. A curve belongs to the plane of
 * its middle, so that a part gives what the whole gives.
 *
 * Not looked at: service ways, roundabouts, bridges and tunnels, corners drawn as one vertex, crests.
 */
export function curveViews(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  plane: number,
  standard: Standard,
  drive: "right" | "left",
): BuiltView[] {
  return roadChains(graph, centerlines).flatMap((chain) => {
    const line = chain.map((direction): PlanePoint => vertex(graph, graph.startOf[direction]!));
    line.push(vertex(graph, endOf(graph, chain[chain.length - 1]!)));
    return findCurves(line, standard.views.curves.leastTurnDeg).flatMap((curve) => {
      const middle = (curve.first + curve.last) >> 1;
      const [x, y] = line[middle]!;
      const [lonDeg, latDeg] = toLonLat(plane, x, y);
      if (planeOf(lonDeg) !== plane) return [];
      const direction = chain[Math.min(middle, chain.length - 1)]!;
      const road = centerlines[roadOfDirection(graph, direction)]!;
      if (road.level !== 0 || road.isRoundabout === true || road.roadClass === "service-alley") return [];
      const id = `${lonDeg.toFixed(6)},${latDeg.toFixed(6)},curve`;
      const view = viewAround({ road, line, curve, id, isWith: isWithLine(direction), plane, standard, drive });
      return view === null ? [] : [view];
    });
  });
}

const vertex = (graph: RoadGraph, at: number): PlanePoint => [graph.xM[at]!, graph.yM[at]!];

interface CurveGiven {
  readonly road: Centerline;
  readonly line: readonly PlanePoint[];
  readonly curve: HorizontalCurve;
  readonly id: string;
  /** Whether the line runs with the centerline. */
  readonly isWith: boolean;
  readonly plane: number;
  readonly standard: Standard;
  readonly drive: "right" | "left";
}

function viewAround({ road, line, curve, id, isWith, plane, standard, drive }: CurveGiven): BuiltView | null {
  const { sight, views, rules } = standard;
  const rule = rules.find((one) => one.id === views.curves.ruleId);
  if (rule === undefined) return null;
  const { middleM, edgeM } = insideLaneM(road, sight.laneShare);
  const radiusM = curve.radiusM - middleM;
  if (!(radiusM > 0)) return null;
  // Traffic in the inside lane of a two-way road has the center on the side it drives on.
  const isLeft = curve.turnDeg > 0;
  const isAlong = road.oneway !== 0 ? (road.oneway === 1) === isWith : isLeft === (drive === "left");
  const isCapped = fastestKmh(radiusM, views.curves.sideFriction) < road.speedKmh;
  const speedKmh = Math.min(road.speedKmh, fastestKmh(radiusM, views.curves.sideFriction));
  const gradePercent = (road.details?.gradePercent ?? 0) * (isAlong === isWith ? 1 : -1);
  const sightM = designSightM(speedKmh, gradePercent);
  if (middleM + horizontalSightlineOffsetM(radiusM, sightM) <= edgeM + BEYOND_EDGE_M) return null;

  const inside = isLeft === isAlong ? 1 : -1;
  const centered = roundedLine(line, curve);
  const lane = offsetLine(isAlong ? centered : [...centered].reverse(), inside * middleM);
  const laneM = lineLengthM(lane);
  const startM = alongTo(lane, line[isAlong ? curve.first : curve.last]!);
  const endM = alongTo(lane, line[isAlong ? curve.last : curve.first]!);
  const fromM = Math.max(0, startM - sightM);
  const toM = Math.min(endM, laneM - sightM);
  if (!(toM > fromM)) return null;
  const { ring, offsetM } = sightAroundCurve(lane, fromM, toM, sightM, inside);
  if (ring === null || middleM + offsetM <= edgeM + BEYOND_EDGE_M) return null;
  const lonLat = ([x, y]: PlanePoint): readonly [number, number] => toLonLat(plane, x, y);
  const name = road.name ?? "the road";
  const doubt = isCapped
    ? `Nobody drives this curve faster than about ${Math.round(speedKmh)} km/h; how fast they do is assumed.`
    : road.speedBasis !== "measured"
      ? `The speed of ${name} is assumed.`
      : null;
  const area: SightArea = {
    id,
    kind: "curve",
    movement: "curve",
    roadName: road.name,
    direction: null,
    control: null,
    controlSource: `a curve of ${curve.radiusM.toFixed(0)} m radius over ${curve.lengthM.toFixed(0)} m, fitted to the centerline`,
    designSpeedKmh: speedKmh,
    legM: sightM,
    ring: [...ring, ring[0]!].map(lonLat),
    windowLowM: views.curves.windowLowM,
    windowHighM: rule.minimumM,
    ruleId: rule.id,
    doubt,
    hidden: null,
  };
  const eyeM = views.eyeM[sight.vehicle];
  return {
    area,
    lines: {
      lane: lineStretch(lane, fromM, toM + sightM + SPARE_M).map(lonLat),
      lengthM: toM - fromM,
      fixed: null,
      aheadM: sightM,
      laneEndM: eyeM,
      otherEndM: [views.curves.objectM, views.curves.objectM],
    },
    name: road.name,
    atMost: doubt === null ? "confirmed" : "probable",
    hazard: "sight-hidden",
    wantedM: endM - startM + sightM,
  };
}

/** Speed in km/h at which side friction and superelevation just hold a car on a curve: V = sqrt(15 R (e + f)), mph and ft (Green Book, memory). */
function fastestKmh(radiusM: number, sideFriction: number): number {
  return Math.sqrt(15 * feetFromMeters(radiusM) * sideFriction) * KMH_PER_MPH;
}

/** Design stopping sight distance in meters: the formula rounded up to the next 5 ft, as published. */
function designSightM(speedKmh: number, gradePercent: number): number {
  const grade = Math.max(-STEEPEST_PERCENT, gradePercent);
  return metersFromFeet(roundUpTo5(stoppingSightDistanceFt(speedKmh / KMH_PER_MPH, grade)));
}

/** Length along a line to its vertex nearest to a point. */
function alongTo(line: readonly PlanePoint[], [px, py]: PlanePoint): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  let doneM = 0;
  line.forEach(([x, y], at) => {
    if (at > 0) doneM += Math.hypot(x - line[at - 1]![0], y - line[at - 1]![1]);
    const away = Math.hypot(x - px, y - py);
    if (away >= least) return;
    least = away;
    best = doneM;
  });
  return best;
}
