import type { SightArea } from "../../../model/surroundings.ts";
import type { Certainty, Hazard } from "../../../model/terms.ts";
import { planeOf, toLonLat, toPlane } from "../../../plane/plane.ts";
import type { Standard } from "../../../standard/standard.ts";
import type { Centerline } from "../../centerline.ts";
import type { BuiltView } from "../built-view.ts";
import { lineLengthM, lineStretch } from "../line-stretch.ts";
import { offsetLine } from "../offset-line.ts";
import type { PlanePoint } from "../plane-point.ts";
import { pointAlong } from "../point-along.ts";
import type { RoadGraph } from "../road-graph.ts";
import { EdgeIndex } from "./edge-index.ts";
import type { Face } from "./face.ts";
import { type FaceApproach, faceApproaches } from "./face-approaches.ts";
import { viewDistanceM } from "./view-distance-m.ts";

/** Longest approach that is followed, meters: farther than any table asks, with the intersection between. */
const FOLLOWED_M = 340;
/** Nearest in meters that a driver is still looked at: a car's length from the face. */
const NEAREST_M = 5;
/** A signal's face counts from 10 ft behind the stop line (MUTCD 4D.07). */
const BEHIND_STOP_M = 3.048;

/** The views to faces of one plane, and the faces that no approach was found for. */
export interface FaceViews {
  readonly views: readonly BuiltView[];
  readonly loose: readonly Face[];
}

/**
 * The wedges to the faces of signs and signals of a plane: from the driver's eye in the outer lane of the approach, from where the standard's table
 * asks that the face be seen at the road's speed down to where it leaves the driver's cone of view, to the face with its width and height. Signals
 * count from 10 ft behind the stop line. A face belongs to the plane of its own position, so that a part gives what the whole gives.
 *
 * Not modeled: crests and dips, a face turned away from its lane, faces over single lanes.
 */
export function faceViews(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  faces: readonly Face[],
  plane: number,
  standard: Standard,
  drive: "right" | "left",
): FaceViews {
  const edges = new EdgeIndex(graph);
  const views: BuiltView[] = [];
  const loose: Face[] = [];
  for (const face of faces) {
    if (planeOf(face.lonDeg) !== plane) continue;
    const [xM, yM] = toPlane(plane, face.lonDeg, face.latDeg);
    const approaches = faceApproaches(face, xM, yM, edges, centerlines, FOLLOWED_M, drive);
    if (approaches.length === 0) loose.push(face);
    for (const approach of approaches) {
      const view = viewOf(face, [xM, yM], approach, plane, standard, drive);
      if (view !== null) views.push(view);
    }
  }
  return { views, loose };
}

function viewOf(
  face: Face,
  drawn: PlanePoint,
  approach: FaceApproach,
  plane: number,
  standard: Standard,
  drive: "right" | "left",
): BuiltView | null {
  const { sight, views, rules } = standard;
  const isSignal = face.kind === "signal";
  const ruleId = isSignal ? views.faces.signalRuleId : views.faces.signRuleId;
  const rule = rules.find((one) => one.id === ruleId);
  const { road, upstream, stopLineM } = approach;
  if (rule === undefined || upstream.length < 2) return null;
  const table = isSignal ? views.faces.signals : face.kind === "other" ? views.faces.noncritical : views.faces.critical;
  const distanceM = viewDistanceM(table, road.speedKmh, face.kind !== "other");
  // Traffic that has its own side at the right runs at the left of the line that leaves the face against it.
  const side = drive === "right" ? 1 : -1;
  const lane = offsetLine(upstream, side * laneM(road, sight.laneShare));
  const isMoved = approach.isOnLine && !isSignal;
  const at = isMoved ? pointAlong(offsetLine(upstream, side * (road.halfWidthM + views.faces.besideRoadM)), 0) : drawn;
  const asideM = isSignal ? 0 : awayFrom(lane, at);
  const cone = Math.tan((views.faces.coneDeg * Math.PI) / 180);
  const nearM = stopLineM + (isSignal ? BEHIND_STOP_M : Math.max(NEAREST_M, asideM / cone));
  const farM = Math.min(stopLineM + distanceM, lineLengthM(lane));
  if (!(farM > nearM)) return null;
  const part = lineStretch(lane, nearM, farM);
  const { bottomM, topM, isAssumed: isHeightAssumed } = heights(face, approach, standard);

  const lonLat = ([x, y]: PlanePoint): readonly [number, number] => toLonLat(plane, x, y);
  const doubt = doubtOf(face, approach, isMoved, isHeightAssumed);
  const [lonDeg, latDeg] = [face.lonDeg, face.latDeg];
  const movement = isSignal ? "signal-face" : "sign-face";
  const [before, after] = [part[0]!, part[part.length - 1]!];
  const bearing = Math.round((Math.atan2(after[0] - before[0], after[1] - before[1]) * 180) / Math.PI + 360) % 360;
  const area: SightArea = {
    id: [lonDeg.toFixed(6), latDeg.toFixed(6), bearing, face.kind, movement].join(","),
    kind: isSignal ? "signal" : "sign",
    movement,
    roadName: road.name,
    direction: null,
    control: null,
    controlSource: `${WORDS[face.kind]} ${face.id}, for ${approach.source}`,
    designSpeedKmh: road.speedKmh,
    legM: distanceM,
    ring: wedge(at, part, views.faces.widthM).map(lonLat),
    windowLowM: Math.min(views.eyeM[sight.vehicle], bottomM),
    windowHighM: Math.max(views.eyeM[sight.vehicle], topM),
    ruleId,
    doubt,
    hidden: null,
  };
  const atMost: Certainty = approach.isAssumed || isMoved ? "possible" : doubt === null ? "confirmed" : "probable";
  return {
    area,
    lines: {
      lane: part.map(lonLat),
      lengthM: farM - nearM,
      fixed: lonLat(at),
      aheadM: 0,
      laneEndM: views.eyeM[sight.vehicle],
      otherEndM: [bottomM, topM],
    },
    name: road.name === null ? WORDS[face.kind] : `${WORDS[face.kind]} on ${road.name}`,
    atMost,
    hazard: HAZARDS[face.kind],
    wantedM: stopLineM + distanceM - nearM,
  };
}

const WORDS: Readonly<Record<Face["kind"], string>> = {
  stop: "stop sign",
  yield: "yield sign",
  signal: "signal",
  critical: "sign",
  other: "sign",
};

const HAZARDS: Readonly<Record<Face["kind"], Hazard | null>> = {
  stop: "sign-hidden",
  yield: "sign-hidden",
  signal: "signal-hidden",
  critical: null,
  other: null,
};

/** From the centerline to the middle of the outer lane toward the face, meters. */
function laneM(road: Centerline, laneShare: number): number {
  if (road.oneway !== 0) return (Math.max(1, road.lanes) / 2 - laneShare) * road.laneM;
  const lanes = Math.max(1, Math.ceil(road.lanes / 2));
  return (road.details?.medianM ?? 0) / 2 + (lanes - laneShare) * road.laneM;
}

function heights(
  face: Face,
  { road, isOnLine }: FaceApproach,
  { views }: Standard,
): { bottomM: number; topM: number; isAssumed: boolean } {
  const { bottomM, heightM } = views.faces;
  const isRural = road.roadClass === "rural-two-lane" || road.roadClass === "freeway";
  const assumedM =
    face.kind === "signal"
      ? isOnLine
        ? bottomM.signalOverRoad
        : bottomM.signalBeside
      : isRural
        ? bottomM.rural
        : bottomM.urban;
  const lowM = face.bottomM ?? assumedM;
  const ownM = face.kind === "signal" ? heightM.signal : face.kind === "stop" ? heightM.stop : heightM.other;
  return { bottomM: lowM, topM: lowM + ownM, isAssumed: face.bottomM === null };
}

function doubtOf(face: Face, approach: FaceApproach, isMoved: boolean, isHeightAssumed: boolean): string | null {
  const { road } = approach;
  const what = WORDS[face.kind];
  if (isMoved) return `The ${what} is drawn on the road's line; that it stands beside it is assumed.`;
  if (approach.isAssumed)
    return `Which way the ${what} faces is not recorded; it is taken to be for ${approach.source}.`;
  if (road.speedBasis !== "measured") return `The speed of ${road.name ?? "the road"} is assumed.`;
  return isHeightAssumed ? `The height of the ${what} is assumed.` : null;
}

/** Ring from the face, as wide as it is, to the part of the lane, closed; the face first. */
function wedge(face: PlanePoint, lane: readonly PlanePoint[], widthM: number): PlanePoint[] {
  const [fx, fy] = face;
  const [x, y] = lane[lane.length - 1]!;
  const lengthM = Math.hypot(x - fx, y - fy);
  const [nx, ny] = [(-(y - fy) / lengthM) * (widthM / 2), ((x - fx) / lengthM) * (widthM / 2)];
  const [px, py] = lane[0]!;
  // The lane's near end shows on which side of the longest line of sight the rest of it lies.
  const near = (x - fx) * (py - fy) - (y - fy) * (px - fx) >= 0 ? 1 : -1;
  return [face, [fx + near * nx, fy + near * ny], ...lane, [fx - near * nx, fy - near * ny], face];
}

function awayFrom(line: readonly PlanePoint[], [px, py]: PlanePoint): number {
  const [[ax, ay], [bx, by]] = [line[0]!, line[1]!];
  const lengthM = Math.hypot(bx - ax, by - ay);
  return lengthM === 0 ? 0 : Math.abs((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / lengthM;
}
