import type { SightArea } from "../../model/surroundings.ts";
import { bearingDeg, turnDeg } from "../../plane/bearing.ts";
import { planeOf, toLonLat } from "../../plane/plane.ts";
import { nearestShare } from "../../plane/segments.ts";
import type { Standard } from "../../standard/standard.ts";
import { KMH_PER_MPH, metersFromFeet } from "../../units/length.ts";
import { intersectionSightDistanceFt, roundUpTo5 } from "./intersection-sight-distance-ft.ts";
import type { StopSign } from "./read-signs.ts";
import type { Centerline } from "../read-ways.ts";
import { buildRoadGraph, followRoad, isWithLine, type RoadGraph, roadOfDirection } from "./road-graph.ts";
import { type StoppedLeg, stoppedLegs } from "./stop-control.ts";

type Point = readonly [xM: number, yM: number];

export interface BuiltTriangle {
  readonly area: SightArea;
  /** How much of the leg along the major road the data hold, meters; less than `legM` where the road ends or leaves them. */
  readonly coveredM: number;
}

/** Length of leg in meters over which its bearing is taken, past the rounding of the corner. Our choice. */
const BEARING_LENGTH_M = 15;
/** A leg within this of square to the driver, in degrees, carries crossing traffic. Our choice. */
const MAX_OFF_SQUARE_DEG = 60;
/** Least sine of the angle between the roads by which a skewed edge is moved out. Green Book: no flatter than about 60 degrees; we go to 30. */
const MIN_SINE = 0.5;

/**
 * The departure sight triangles of all stop-controlled legs: for each, the one toward traffic from the left and the one toward traffic from
 * the right. Both legs are those of the turn across the near lanes (case B1, a left turn where one drives on the right): it must see both
 * ways and has the longer gap, so the other turn (B2) and the crossing (B3) lie within. Where every leg stops there is none.
 *
 * Not modeled: medians, grades, trucks, yield control, driveways, a major road's own curve beyond the polyline given.
 */
export function sightTriangles(
  centerlines: readonly Centerline[],
  signs: readonly StopSign[],
  standard: Standard,
  drive: "right" | "left",
): { triangles: BuiltTriangle[]; loose: StopSign[] } {
  const byPlane = new Map<number, StopSign[]>();
  for (const sign of signs) {
    const plane = planeOf(sign.lonDeg);
    const there = byPlane.get(plane);
    if (there === undefined) byPlane.set(plane, [sign]);
    else there.push(sign);
  }
  const built = new Map<string, BuiltTriangle>();
  const loose: StopSign[] = [];
  for (const [plane, there] of byPlane) {
    const graph = buildRoadGraph(centerlines, plane);
    const control = stoppedLegs(graph, plane, centerlines, there, standard.sight.signReachM, drive);
    loose.push(...control.loose);
    for (const leg of control.legs.values()) {
      const majors = graph.leaving[leg.node]!.filter((direction) => !control.legs.has(direction));
      for (const direction of ["left", "right"] as const) {
        const triangle = triangleToward(graph, plane, centerlines, leg, majors, direction, standard, drive);
        if (triangle !== null && !built.has(triangle.area.id)) built.set(triangle.area.id, triangle);
      }
    }
  }
  return { triangles: [...built.values()], loose };
}

function triangleToward(
  graph: RoadGraph,
  plane: number,
  centerlines: readonly Centerline[],
  leg: StoppedLeg,
  majors: readonly number[],
  direction: "left" | "right",
  standard: Standard,
  drive: "right" | "left",
): BuiltTriangle | null {
  const minorBearing = legBearing(graph, leg.direction);
  const wanted = direction === "left" ? -90 : 90;
  let major: number | null = null;
  let leastOff = MAX_OFF_SQUARE_DEG;
  for (const candidate of majors) {
    const off = Math.abs(turnDeg(minorBearing + 180, legBearing(graph, candidate)) - wanted);
    if (off <= leastOff) {
      major = candidate;
      leastOff = off;
    }
  }
  if (major === null) return null;
  const road = centerlines[roadOfDirection(graph, major)]!;
  // Traffic toward the node runs against the direction that leaves it.
  const comesHere = road.oneway === 0 || (road.oneway === 1) !== isWithLine(major);
  if (!comesHere) return null;

  const perDirection = road.oneway === 0 ? Math.max(1, Math.ceil(road.lanes / 2)) : road.lanes;
  const extraLanes = road.oneway === 0 ? perDirection - 1 : 0;
  const { gapLeftS, gapRightS, extraLaneS } = standard.sight;
  const gapS = Math.max(gapRightS, gapLeftS + extraLaneS * extraLanes);
  const legM = metersFromFeet(roundUpTo5(intersectionSightDistanceFt(road.speedKmh / KMH_PER_MPH, gapS)));

  const eye = decisionPoint(graph, centerlines, leg, road, standard, drive, legBearing(graph, major));
  const isNear = (direction === "left") === (drive === "right");
  const offsetM =
    road.oneway !== 0
      ? (perDirection / 2 - 0.5) * road.laneM
      : isNear
        ? (perDirection - 0.5) * road.laneM
        : 0.5 * road.laneM;
  // The lane of traffic toward the node is on the left of the direction that leaves it, where one drives on the right.
  const lane = offsetLine(followRoad(graph, major, legM + 60), drive === "right" ? offsetM : -offsetM);
  const walked = walkFromFoot(lane, eye, legM);
  const corners = [eye, ...walked.points, eye].map(([x, y]) => toLonLat(plane, x, y));
  const [lonDeg, latDeg] = toLonLat(plane, graph.xM[leg.node]!, graph.yM[leg.node]!);
  const stops = leg.isFacingKnown ? "its facing" : "the nearest leg on its side, facing not recorded";
  const speedDoubt =
    road.speedBasis === "measured" ? null : `The speed of ${road.name ?? "the major road"} is assumed.`;
  return {
    coveredM: walked.lengthM,
    area: {
      id: `${lonDeg.toFixed(6)},${latDeg.toFixed(6)},${Math.round(minorBearing) % 360},${direction}`,
      kind: "sight-triangle",
      movement: (direction === "left") === (drive === "right") ? "left-turn" : "right-turn",
      roadName: road.name,
      direction,
      control: "stop",
      controlSource: `stop sign ${leg.sign.id}, by ${stops}`,
      designSpeedKmh: road.speedKmh,
      legM,
      ring: corners,
      windowLowM: standard.sight.windowLowM,
      windowHighM: standard.sight.windowHighM,
      ruleId: standard.sight.ruleId,
      doubt: leg.isFacingKnown ? speedDoubt : "Which leg the stop sign controls is not recorded.",
      hidden: null,
    },
  };
}

/** The driver's eye: back from the edge of the major traveled way by the setback, on the center of the lane that comes to the node. */
function decisionPoint(
  graph: RoadGraph,
  centerlines: readonly Centerline[],
  leg: StoppedLeg,
  majorRoad: Centerline,
  standard: Standard,
  drive: "right" | "left",
  majorBearing: number,
): Point {
  const minor = centerlines[roadOfDirection(graph, leg.direction)]!;
  const sine = Math.abs(Math.sin((turnDeg(legBearing(graph, leg.direction), majorBearing) * Math.PI) / 180));
  const backM = (majorRoad.halfWidthM + standard.sight.setbackM) / Math.max(MIN_SINE, sine);
  const offsetM = minor.oneway === 0 ? 0.5 * minor.laneM : 0;
  const lane = offsetLine(followRoad(graph, leg.direction, backM), drive === "right" ? offsetM : -offsetM);
  return pointAlong(lane, backM);
}

function legBearing(graph: RoadGraph, direction: number): number {
  const points = followRoad(graph, direction, BEARING_LENGTH_M);
  const [x, y] = pointAlong(points, BEARING_LENGTH_M);
  return bearingDeg(x - points[0]![0], y - points[0]![1]);
}

/** The point a length along a line; past its end the last segment goes on straight. */
function pointAlong(line: readonly Point[], lengthM: number): Point {
  let doneM = 0;
  for (let at = 0; at + 1 < line.length; at += 1) {
    const [ax, ay] = line[at]!;
    const [bx, by] = line[at + 1]!;
    const stepM = Math.hypot(bx - ax, by - ay);
    if (stepM > 0 && (doneM + stepM >= lengthM || at + 2 === line.length)) {
      const share = (lengthM - doneM) / stepM;
      return [ax + share * (bx - ax), ay + share * (by - ay)];
    }
    doneM += stepM;
  }
  return line[line.length - 1]!;
}

/** A line moved sideways by `leftM` meters (negative: to the right), its corners mitered. */
function offsetLine(line: readonly Point[], leftM: number): Point[] {
  return line.map(([x, y], at) => {
    const before = line[Math.max(0, at - 1)]!;
    const after = line[Math.min(line.length - 1, at + 1)]!;
    const [inX, inY] = unit(at === 0 ? [x, y] : before, at === 0 ? after : [x, y]);
    const [outX, outY] = unit(at === line.length - 1 ? before : [x, y], at === line.length - 1 ? [x, y] : after);
    const [nx, ny] = [-(inY + outY) / 2, (inX + outX) / 2];
    // The miter of a bend of 120 degrees is twice the offset; sharper ones are cut there.
    const squared = Math.max(0.25, nx * nx + ny * ny);
    return [x + (leftM * nx) / squared, y + (leftM * ny) / squared];
  });
}

function unit([ax, ay]: Point, [bx, by]: Point): Point {
  const lengthM = Math.hypot(bx - ax, by - ay);
  return lengthM > 0 ? [(bx - ax) / lengthM, (by - ay) / lengthM] : [0, 0];
}

/** Points of the lane from the foot of the eye's perpendicular on for `legM` meters, or to its end. */
function walkFromFoot(lane: readonly Point[], [ex, ey]: Point, legM: number): { points: Point[]; lengthM: number } {
  // Where the roads are skewed the foot can lie beyond the node.
  const back = pointAlong([lane[1]!, lane[0]!], Math.hypot(lane[1]![0] - lane[0]![0], lane[1]![1] - lane[0]![1]) + 30);
  const line: Point[] = [back, ...lane.slice(1)];
  const [[ax, ay], [bx, by]] = [line[0]!, line[1]!];
  const share = nearestShare(ex, ey, ax, ay, bx, by);
  const points: Point[] = [[ax + share * (bx - ax), ay + share * (by - ay)]];
  let doneM = 0;
  for (const next of line.slice(1)) {
    const from = points[points.length - 1]!;
    const stepM = Math.hypot(next[0] - from[0], next[1] - from[1]);
    if (doneM + stepM >= legM) {
      points.push(pointAlong([from, next], legM - doneM));
      return { points, lengthM: legM };
    }
    if (stepM > 0) points.push(next);
    doneM += stepM;
  }
  return { points, lengthM: doneM };
}
