import type { Polygon } from "geojson";
import { describe, expect, it } from "vitest";
import type { CrownSize } from "../../../src/core/conflict/crown-size.ts";
import { encroachmentOf } from "../../../src/core/conflict/encroachment.ts";
import { RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../../../src/core/model/conflict.ts";
import { planeOf, toPlane } from "../../../src/core/plane/plane.ts";
import { ORIGIN } from "./scene.ts";

const plane = planeOf(ORIGIN.lonDeg);
const [originXM, originYM] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
const crown: CrownSize = {
  heightM: 12,
  baseM: 3,
  northM: 4,
  eastM: 4,
  southM: 4,
  westM: 4,
  habit: "ellipsoid",
};

/** From `nearM` outward on the rays named, nothing on the others. */
function regionOn(rays: readonly number[], nearM: number, farM = Number.POSITIVE_INFINITY): RemovalRegion {
  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  const toM = new Float64Array(RAY_COUNT);
  for (const ray of rays) {
    fromM[ray] = nearM;
    toM[ray] = farM;
  }
  return { fromM, toM, lowM: 0, highM: 5 };
}

const encroachment = (region: RemovalRegion, share = 1): Polygon | null =>
  encroachmentOf(region, crown, share, plane, originXM, originYM);

/** Corners in meters from the trunk; the last, which must repeat the first, is left out. */
function cornersM(polygon: Polygon | null): [xM: number, yM: number][] {
  const ring = polygon!.coordinates[0]!;
  expect(polygon!.coordinates).toHaveLength(1);
  expect(ring[ring.length - 1]).toEqual(ring[0]);
  return ring.slice(0, -1).map(([lonDeg, latDeg]) => {
    const [xM, yM] = toPlane(plane, lonDeg!, latDeg!);
    return [xM - originXM, yM - originYM];
  });
}

/** Positive where the ring is counterclockwise. */
const areaM2 = (corners: readonly (readonly [number, number])[]): number =>
  corners.reduce((sum, [ax, ay], index) => {
    const [bx, by] = corners[(index + 1) % corners.length]!;
    return sum + (ax * by - bx * ay) / 2;
  }, 0);

const distances = (corners: readonly (readonly [number, number])[]): number[] =>
  corners.map(([x, y]) => Math.hypot(x, y));
const every = Array.from({ length: RAY_COUNT }, (_, ray) => ray);
/** Sine of the angle between two rays, halved: the area of a triangle of two rays of one meter. */
const TRIANGLE_M2 = Math.sin((RAY_STEP_DEG * Math.PI) / 180) / 2;

// The slopes about a point differ from the projection by under a millimeter: 0.01 m2 on a crown of 50 m2.
describe("the encroaching part of a crown", () => {
  it("is none where the region does not reach into it", () => {
    expect(encroachment(regionOn([], 1))).toBeNull();
    expect(encroachment(regionOn(every, 4))).toBeNull();
    expect(encroachment(regionOn(every, 2), 0.5)).toBeNull();
    expect(encroachment(regionOn(every, 3, 2))).toBeNull();
  });

  it("is the outline where the region is all around, out to the share of the radius", () => {
    const corners = cornersM(encroachment(regionOn(every, 0), 0.75));
    expect(corners).toHaveLength(RAY_COUNT);
    for (const distanceM of distances(corners)) expect(distanceM).toBeCloseTo(3, 3);
    expect(areaM2(corners)).toBeCloseTo(RAY_COUNT * TRIANGLE_M2 * 9, 2);
  });

  it("is the strip between where the region begins and the edge, counterclockwise", () => {
    const corners = cornersM(encroachment(regionOn([10, 11, 12], 2)));
    expect(corners).toHaveLength(6);
    for (const [index, distanceM] of distances(corners).entries()) expect(distanceM).toBeCloseTo(index < 3 ? 2 : 4, 3);
    expect(areaM2(corners)).toBeCloseTo(2 * TRIANGLE_M2 * (16 - 4), 2);
  });

  it("ends where the region ends, before the crown's edge", () => {
    const corners = cornersM(encroachment(regionOn([10, 11, 12], 1, 3)));
    expect(areaM2(corners)).toBeCloseTo(2 * TRIANGLE_M2 * (9 - 1), 2);
  });

  it("runs on over north, where the rays begin anew", () => {
    const over = cornersM(encroachment(regionOn([RAY_COUNT - 2, RAY_COUNT - 1, 0, 1], 2)));
    expect(over).toHaveLength(8);
    expect(areaM2(over)).toBeCloseTo(3 * TRIANGLE_M2 * (16 - 4), 2);
    expect(over.every(([, yM]) => yM > 0)).toBe(true);
  });

  it("is the larger of two parts by area, not by the number of rays", () => {
    const region = regionOn([10, 11, 12, 13], 3.9);
    for (const ray of [60, 61, 62]) [region.fromM[ray], region.toM[ray]] = [1, 10];
    const corners = cornersM(encroachment(region));
    expect(corners).toHaveLength(6);
    expect(areaM2(corners)).toBeCloseTo(2 * TRIANGLE_M2 * (16 - 1), 2);
    // Of two as large the first from north on.
    const equal = cornersM(encroachment(regionOn([5, 6, 70, 71], 2)));
    expect(equal.every(([xM, yM]) => xM > 0 && yM > 0)).toBe(true);
  });

  it("on one ray is that ray's sector, so that it is an area", () => {
    const corners = cornersM(encroachment(regionOn([20], 2)));
    expect(corners).toHaveLength(4);
    expect(distances(corners).map((distanceM) => Math.round(distanceM * 1000) / 1000)).toEqual([2, 2, 4, 4]);
    expect(areaM2(corners)).toBeCloseTo(TRIANGLE_M2 * (16 - 4), 2);
    // Half a step to either side of the ray's own bearing.
    const bearing = ((20 + 0.5) * RAY_STEP_DEG * Math.PI) / 180;
    const middle = corners.reduce(([x, y], [cx, cy]) => [x + cx / 4, y + cy / 4], [0, 0]);
    expect(Math.atan2(middle[0]!, middle[1]!)).toBeCloseTo(bearing, 3);
  });
});
