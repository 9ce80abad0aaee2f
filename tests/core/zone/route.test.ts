import fc from "fast-check";
import { expect, test } from "vitest";
import { routeThrough } from "../../../src/core/zone/route.ts";

const manyPoints = (seed: number, count: number, sideM: number): Float64Array => {
  let state = seed;
  return Float64Array.from({ length: 2 * count }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state / 4_294_967_296) * sideM;
  });
};

test("the way passes every stop once, also where many stand in one place", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 700 }), fc.constantFrom(0, 5, 5000, 200_000), (count, sideM) => {
      const route = routeThrough(manyPoints(count + 1, count, sideM));
      expect([...route].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, at) => at));
    }),
    { seed: 9, numRuns: 12 },
  );
});

test("the way through 4,000 stops beats the curve alone, which is a quarter longer than the shortest", () => {
  // Beardwood, Halton and Hammersley 1959: the shortest way through n points in an area A tends to 0.7124 sqrt(n A) (constant by Johnson and
  // McGeoch 1996). Stops merely taken in the order of a space-filling curve come to 25 % more (Bartholdi and Platzman 1982).
  const xy = manyPoints(1, 4000, 10_000);
  const shortestM = 0.7124 * Math.sqrt(4000 * 10_000 * 10_000);
  const way = routeThrough(xy);
  const wayM = way
    .slice(1)
    .reduce(
      (sum, to, at) => sum + Math.hypot(xy[2 * to]! - xy[2 * way[at]!]!, xy[2 * to + 1]! - xy[2 * way[at]! + 1]!),
      0,
    );
  expect(wayM / shortestM).toBeGreaterThan(0.95);
  expect(wayM / shortestM).toBeLessThan(1.25);
});

test("a stop added in a far square leaves the way through the others as it was", () => {
  const before = manyPoints(3, 300, 2000);
  const after = Float64Array.from([...before, 150_000, 150_000]);
  expect(routeThrough(after).filter((stop) => stop < 300)).toEqual(routeThrough(before));
});
