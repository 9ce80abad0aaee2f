import type { Centerline } from "../../centerline.ts";
import type { PlanePoint } from "../plane-point.ts";
import type { HorizontalCurve } from "./find-curves.ts";

/** Longest chord in meters that an arc is drawn with. */
const CHORD_M = 2;

/**
 * How far in meters from the centerline toward the center of a curve the middle of its inside lane runs, and its edge of the traveled way: the
 * outermost lane on that side of a two-way road, of a one-way road the one at that side.
 */
export function insideLaneM(road: Centerline, laneShare: number): { middleM: number; edgeM: number } {
  const medianM = road.oneway === 0 ? (road.details?.medianM ?? 0) / 2 : 0;
  const lanes = road.oneway === 0 ? Math.max(1, Math.ceil(road.lanes / 2)) : Math.max(1, road.lanes) / 2;
  const middleM = medianM + (lanes - laneShare) * road.laneM;
  return { middleM, edgeM: Math.max(road.halfWidthM, middleM + laneShare * road.laneM) };
}

/** A line with its curve drawn round: between the vertices of the curve points of the arc, their distances from its center blended. */
export function roundedLine(line: readonly PlanePoint[], curve: HorizontalCurve): PlanePoint[] {
  const { first, last, xM, yM } = curve;
  return line.flatMap((point, at): PlanePoint[] => {
    if (at < first || at >= last) return [point];
    const [px, py] = [point[0] - xM, point[1] - yM];
    const [qx, qy] = [line[at + 1]![0] - xM, line[at + 1]![1] - yM];
    const turn = Math.atan2(px * qy - py * qx, px * qx + py * qy);
    const [from, to] = [Math.hypot(px, py), Math.hypot(qx, qy)];
    const steps = Math.max(1, Math.ceil((Math.abs(turn) * curve.radiusM) / CHORD_M));
    return Array.from({ length: steps }, (_, step): PlanePoint => {
      const share = step / steps;
      const angle = Math.atan2(py, px) + share * turn;
      const awayM = from + share * (to - from);
      return [xM + awayM * Math.cos(angle), yM + awayM * Math.sin(angle)];
    });
  });
}
