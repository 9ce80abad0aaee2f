import Flatbush from "flatbush";
import type { Position } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { SurroundingFeature } from "../../core/model/surroundings.ts";
import { planeOf, toLonLat, toPlane } from "../../core/plane/plane.ts";

/** Farthest a trunk may stand from the center line of the road that its closure is on, meters: as far as settings look. */
const REACH_M = 30;

/** One line of a road. */
export interface RoadLine {
  readonly feature: SurroundingFeature;
  readonly points: readonly Position[];
}

/** Where a tree stands along a line. */
export interface LinePlace {
  readonly line: RoadLine;
  /** Meters from the line's start. */
  readonly alongM: number;
  readonly isLeft: boolean;
}

/** A finder of the nearest center line to a point, by boxes in degrees; its answer is null where none is within 30 m. */
export function roadLines(plan: Plan): (lonDeg: number, latDeg: number) => LinePlace | null {
  const lines = plan.surroundings.flatMap((feature): RoadLine[] => {
    if (feature.layer !== "roads" || !["roadway", "bus-route", "fire-lane"].includes(feature.kind ?? "")) return [];
    const { geometry } = feature;
    if (geometry.type === "LineString") return [{ feature, points: geometry.coordinates }];
    return geometry.type === "MultiLineString" ? geometry.coordinates.map((points) => ({ feature, points })) : [];
  });
  if (lines.length === 0) return () => null;
  const index = new Flatbush(lines.length);
  for (const { points } of lines) {
    const lons = points.map(([lonDeg]) => lonDeg!);
    const lats = points.map(([, latDeg]) => latDeg!);
    index.add(Math.min(...lons), Math.min(...lats), Math.max(...lons), Math.max(...lats));
  }
  index.finish();
  return (lonDeg, latDeg) => {
    const latReach = REACH_M / 110_000;
    const lonReach = latReach / Math.max(0.05, Math.cos((latDeg * Math.PI) / 180));
    const near = index.search(lonDeg - lonReach, latDeg - latReach, lonDeg + lonReach, latDeg + latReach);
    let best: LinePlace | null = null;
    let bestM = REACH_M;
    for (const at of near.sort((a, b) => a - b)) {
      const found = placeOn(lines[at]!, lonDeg, latDeg);
      if (found.awayM < bestM) [best, bestM] = [found, found.awayM];
    }
    return best;
  };
}

function placeOn(line: RoadLine, lonDeg: number, latDeg: number): LinePlace & { readonly awayM: number } {
  const xy = inPlane(line.points, lonDeg);
  const [px, py] = toPlane(planeOf(lonDeg), lonDeg, latDeg);
  let best = { line, alongM: 0, isLeft: false, awayM: Number.POSITIVE_INFINITY };
  let doneM = 0;
  for (let at = 1; at < xy.length; at += 1) {
    const [[ax, ay], [bx, by]] = [xy[at - 1]!, xy[at]!];
    const lengthM = Math.hypot(bx - ax, by - ay);
    if (lengthM === 0) continue;
    const share = Math.min(1, Math.max(0, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / lengthM ** 2));
    const awayM = Math.hypot(px - ax - share * (bx - ax), py - ay - share * (by - ay));
    if (awayM < best.awayM) {
      const isLeft = (bx - ax) * (py - ay) - (by - ay) * (px - ax) > 0;
      best = { line, alongM: doneM + share * lengthM, isLeft, awayM };
    }
    doneM += lengthM;
  }
  return best;
}

/** The part of a line between two distances along it, held to its ends; longitude and latitude with 7 decimals. */
export function partOfLine({ points }: RoadLine, fromM: number, toM: number): Position[] {
  const plane = planeOf(points[0]![0]!);
  const xy = inPlane(points, points[0]![0]!);
  const part: Position[] = [];
  const add = (x: number, y: number): void => {
    const position = toLonLat(plane, x, y).map((degrees) => Number(degrees.toFixed(7)));
    const last = part[part.length - 1];
    if (last === undefined || last[0] !== position[0] || last[1] !== position[1]) part.push(position);
  };
  let doneM = 0;
  for (let at = 1; at < xy.length; at += 1) {
    const [[ax, ay], [bx, by]] = [xy[at - 1]!, xy[at]!];
    const lengthM = Math.hypot(bx - ax, by - ay);
    const [first, last] = [Math.max(fromM, doneM), Math.min(toM, doneM + lengthM)];
    if (lengthM > 0 && first <= last) {
      for (const alongM of [first, last]) {
        const share = (alongM - doneM) / lengthM;
        add(ax + share * (bx - ax), ay + share * (by - ay));
      }
    }
    doneM += lengthM;
  }
  return part;
}

const inPlane = (points: readonly Position[], lonDeg: number): (readonly [number, number])[] =>
  points.map(([lon, lat]) => toPlane(planeOf(lonDeg), lon!, lat!));
