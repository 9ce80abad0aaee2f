import fc from "fast-check";
import { expect, test } from "vitest";
import { type Distances, shortPath, shortRoundTrip, straightDistances } from "../../../src/core/zone/tour.ts";

const points = (count: number) =>
  fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 })), {
    minLength: count,
    maxLength: count,
  });

const distancesOf = (xy: readonly (readonly [number, number])[]): Distances =>
  straightDistances(
    Float64Array.from(xy.flat()),
    xy.map((_, at) => at),
  );

function lengthOf(path: readonly number[], { count, between }: Distances): number {
  let length = 0;
  for (let at = 1; at < path.length; at += 1) length += between[path[at - 1]! * count + path[at]!]!;
  return length;
}

function shortestByBruteForce(distances: Distances): number {
  let best = Number.POSITIVE_INFINITY;
  const visit = (path: number[], left: readonly number[]): void => {
    if (left.length === 0) best = Math.min(best, lengthOf(path, distances));
    for (const next of left)
      visit(
        [...path, next],
        left.filter((one) => one !== next),
      );
  };
  visit(
    [],
    Array.from({ length: distances.count }, (_, at) => at),
  );
  return best;
}

test("up to seven stops, the way is within 5 % of the shortest of all", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 7 }).chain(points), (xy) => {
      const distances = distancesOf(xy);
      const best = shortestByBruteForce(distances);
      const length = lengthOf(shortPath(distances), distances);
      expect(length).toBeGreaterThanOrEqual(best - 1e-6);
      // The heuristic's usual margin; most draws are exact. The 1e-6 m is for all points in one place.
      expect(length).toBeLessThanOrEqual(best * 1.05 + 1e-6);
    }),
    { seed: 1, numRuns: 150 },
  );
});

test("every stop is passed once, and the same stops give the same way", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 40 }).chain(points), (xy) => {
      const distances = distancesOf(xy);
      const sorted = (order: readonly number[]): number[] => [...order].sort((a, b) => a - b);
      const all = xy.map((_, at) => at);
      expect(sorted(shortPath(distances))).toEqual(all);
      expect(sorted(shortRoundTrip(distances))).toEqual(all);
      expect(shortPath(distances)).toEqual(shortPath(distances));
    }),
    { seed: 2, numRuns: 60 },
  );
});

test("stops along a street are walked from one end to the other", () => {
  const street = distancesOf([30, 0, 50, 10, 40, 20].map((x) => [x, 0] as const));
  // Ends are 0 m (stop 1) and 50 m (stop 2); the way starts at the lower number.
  expect(shortPath(street)).toEqual([1, 3, 5, 0, 4, 2]);
});
