// Source: TSPLIB 95 (G. Reinelt, Heidelberg), problems berlin52 and kroA100 with their proven optimal tour lengths 7542 and 21282; distances
// of type EUC_2D, rounded to the nearest integer. Coordinates and optima copied from the library (tests/fixtures/tsplib).
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { roundTripLength, shortRoundTrip } from "../../src/core/zone/tour.ts";

test.each([
  ["berlin52", 52, 7542],
  ["kroA100", 100, 21_282],
])("the tour through %s is within 5 % of the proven optimum", (name, cities, optimum) => {
  const points = readFileSync(new URL(`../fixtures/tsplib/${name}.csv`, import.meta.url), "utf8")
    .trim()
    .split("\n")
    .map((line) => line.split(",").map(Number) as [number, number]);
  expect(points.length).toBe(cities);
  const between = Float64Array.from(
    points.flatMap(([ax, ay]) => points.map(([bx, by]) => Math.floor(Math.hypot(bx - ax, by - ay) + 0.5))),
  );
  const distances = { count: cities, between };
  const tour = shortRoundTrip(distances);
  expect([...tour].sort((a, b) => a - b)).toEqual(points.map((_, city) => city));
  const length = roundTripLength(tour, distances);
  expect(length).toBeGreaterThanOrEqual(optimum);
  // 5 % is what 2-opt with Or-opt is known for (Johnson and McGeoch 1997), and little beside the error of straight distances.
  expect(length / optimum).toBeLessThanOrEqual(1.05);
});
