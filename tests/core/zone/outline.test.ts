import fc from "fast-check";
import { expect, test } from "vitest";
import { zoneOutline } from "../../../src/core/zone/outline.ts";
import { DROP_MARGIN_M, plannedStops } from "../../../src/core/zone/stops.ts";
import { planOfWork, type Work } from "./plan-of-work.ts";

const outlineOf = (works: readonly Work[]) => zoneOutline(plannedStops(planOfWork(works)));

/** Meters east and north of the test plan's origin; good to 1 mm in 1 km, far below the tolerances. */
const planar = ([lon, lat]: readonly number[]): [number, number] => [(lon! - 10) * 71_695, (lat! - 50) * 111_229];

const anyTrees = fc
  .array(
    fc.record({
      x: fc.integer({ min: 0, max: 300 }),
      y: fc.integer({ min: 0, max: 200 }),
      radiusM: fc.integer({ min: 3, max: 90 }).map((tenths) => tenths / 10),
    }),
    { minLength: 1, maxLength: 25 },
  )
  .map((rows) => rows.map(({ x, y, radiusM }, at): Work => ({ id: `t${at}`, at: [x, y], radiusM })));

test("outer rings are counterclockwise and do not cross themselves, and one part holds each drop zone", () => {
  fc.assert(
    fc.property(anyTrees, (works) => {
      const parts = outlineOf(works).coordinates.map((rings) => rings.map((ring) => ring.map(planar)));
      for (const [outer, ...holes] of parts) {
        for (const hole of holes) expect(signedArea(hole)).toBeLessThan(-400 + 1);
        expect(outer!.at(-1)).toEqual(outer![0]);
        expect(signedArea(outer!)).toBeGreaterThan(0);
        expect(crossesItself(outer!)).toBe(false);
      }
      for (const { at, radiusM } of works) {
        for (let bearing = 0; bearing < 360; bearing += 15) {
          const angle = (bearing * Math.PI) / 180;
          // Thinning may cut 0.1 m off, rounding to 7 decimals 1 cm, the test's flat degrees a few millimeters.
          const reachM = radiusM! + DROP_MARGIN_M - 0.15;
          const point = [at[0] + reachM * Math.sin(angle), at[1] + reachM * Math.cos(angle)] as const;
          const around = parts.filter(([outer]) => isInside(point, outer!));
          expect(around).toHaveLength(1);
          for (const hole of around[0]!.slice(1)) expect(isInside(point, hole)).toBe(false);
        }
      }
    }),
    { seed: 8, numRuns: 120 },
  );
});

test("one tree of 4 m radius gets a circle of 7 m", () => {
  // Circle area pi 7^2 = 153.9 m2; the 24-sided polygon around it has 24 x 49 x tan(7.5 deg) = 154.8 m2. 1 m2 for thinning by up to 0.1 m.
  const area = signedArea(outlineOf([{ id: "a", at: [0, 0], radiusM: 4 }]).coordinates[0]![0]!.map(planar));
  expect(Math.abs(area - 154.8)).toBeLessThan(1);
});

test("the next tree within 45 m is joined by a corridor 3 m wide, a farther one is a part of its own", () => {
  const two = (apartM: number) =>
    outlineOf([
      { id: "a", at: [apartM, 0], radiusM: 4 },
      { id: "b", at: [0, 0], radiusM: 4 },
    ]).coordinates;
  // Two circles of 154.8 m2 and a corridor of 3 m x (44 - 14) m = 90 m2, with a little rounding at its four corners.
  expect(two(44)).toHaveLength(1);
  const area = signedArea(two(44)[0]![0]!.map(planar));
  expect(area).toBeGreaterThan(2 * 154.8 + 90 - 5);
  expect(area).toBeLessThan(2 * 154.8 + 90 + 25);
  const apart = two(46);
  expect(apart).toHaveLength(2);
  expect(apart[0]![0]![0]![0]!).toBeLessThan(apart[1]![0]![0]![0]!);
});

test("a block that the work goes around is a hole, a yard is not", () => {
  const around = (sideM: number): Work[] =>
    Array.from({ length: 4 * 8 }, (_, at): Work => {
      const along = ((at % 8) / 8) * sideM;
      const corner = [
        [along, 0],
        [sideM, along],
        [sideM - along, sideM],
        [0, sideM - along],
      ][Math.floor(at / 8)]!;
      return { id: `t${at}`, at: [corner[0]!, corner[1]!], radiusM: 4 };
    });
  // Inside the discs of 7 m a square of 100 m leaves about (100 - 14)^2 = 7,400 m2, one of 30 m about (30 - 14)^2 = 256 m2.
  expect(outlineOf(around(100)).coordinates.map((rings) => rings.length)).toEqual([2]);
  expect(outlineOf(around(30)).coordinates.map((rings) => rings.length)).toEqual([1]);
});

test("trees in one place are one circle, and none is refused", () => {
  const twice: Work[] = [
    { id: "a", at: [0, 0], radiusM: 4 },
    { id: "b", at: [0, 0], radiusM: 4 },
  ];
  expect(Math.abs(signedArea(outlineOf(twice).coordinates[0]![0]!.map(planar)) - 154.8)).toBeLessThan(1);
  expect(() => zoneOutline([])).toThrow(RangeError);
});

function signedArea(ring: readonly (readonly [number, number])[]): number {
  let double = 0;
  for (let at = 1; at < ring.length; at += 1) {
    double += ring[at - 1]![0] * ring[at]![1] - ring[at]![0] * ring[at - 1]![1];
  }
  return double / 2;
}

function crossesItself(ring: readonly (readonly [number, number])[]): boolean {
  const turn = (a: readonly number[], b: readonly number[], c: readonly number[]): number =>
    (b[0]! - a[0]!) * (c[1]! - a[1]!) - (b[1]! - a[1]!) * (c[0]! - a[0]!);
  const last = ring.length - 1;
  for (let i = 0; i < last; i += 1) {
    for (let j = i + 2; j < last; j += 1) {
      if (i === 0 && j === last - 1) continue;
      const [a, b, c, d] = [ring[i]!, ring[i + 1]!, ring[j]!, ring[j + 1]!];
      // Segments in one line apart from each other have no turn either, so their boxes must meet too.
      if (!boxesMeet(a, b, c, d)) continue;
      if (turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0) return true;
    }
  }
  return false;
}

const boxesMeet = (a: readonly number[], b: readonly number[], c: readonly number[], d: readonly number[]): boolean =>
  [0, 1].every(
    (axis) =>
      Math.max(a[axis]!, b[axis]!) >= Math.min(c[axis]!, d[axis]!) &&
      Math.max(c[axis]!, d[axis]!) >= Math.min(a[axis]!, b[axis]!),
  );

function isInside([x, y]: readonly [number, number], ring: readonly (readonly [number, number])[]): boolean {
  let isIn = false;
  for (let at = 1; at < ring.length; at += 1) {
    const [ax, ay] = ring[at - 1]!;
    const [bx, by] = ring[at]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) isIn = !isIn;
  }
  return isIn;
}
