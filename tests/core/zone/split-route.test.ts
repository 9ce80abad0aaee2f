import fc from "fast-check";
import { expect, test } from "vitest";
import { type DayLimits, type RouteStop, splitRoute } from "../../../src/core/zone/split-route.ts";

const LIMITS: DayLimits = { hoursPerDay: 8, longestStepM: 500 };
const stop = (hours: number, stepM = 10, firstDay = 0, lastDay = 100): RouteStop => ({
  hours,
  stepM,
  firstDay,
  lastDay,
});

/** What a part costs, as the doc comment says it: 400 m, its walk, and 2400 m times the square of what it lacks to 0.75 of a day. */
function cost(part: readonly RouteStop[]): number {
  const hours = part.reduce((sum, one) => sum + one.hours, 0);
  const steps = part.slice(1).map((one) => one.stepM);
  const common = Math.min(...part.map((one) => one.lastDay)) - Math.max(...part.map((one) => one.firstDay)) + 1;
  const tightest = Math.min(...part.map((one) => one.lastDay - one.firstDay + 1));
  const isAllowed =
    part.length === 1 || (hours <= 8.8 && steps.every((step) => step <= 500) && common >= Math.min(7, tightest));
  if (!isAllowed) return Number.POSITIVE_INFINITY;
  return 400 + steps.reduce((sum, step) => sum + step, 0) + 2400 * Math.max(0, 0.75 - hours / 8) ** 2;
}

const partsOf = (route: readonly RouteStop[], starts: readonly number[]): RouteStop[][] =>
  starts.map((start, at) => route.slice(start, starts[at + 1] ?? route.length));
const total = (parts: readonly RouteStop[][]): number => parts.reduce((sum, part) => sum + cost(part), 0);

function cheapestByBruteForce(route: readonly RouteStop[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (let cuts = 0; cuts < 2 ** (route.length - 1); cuts += 1) {
    const starts = [0, ...route.map((_, at) => at).filter((at) => at > 0 && (cuts >> (at - 1)) & 1)];
    best = Math.min(best, total(partsOf(route, starts)));
  }
  return best;
}

test("the cuts cost no more than the cheapest of all possible cuts", () => {
  const anyStop = fc.record({
    hours: fc.integer({ min: 1, max: 80 }).map((tenths) => tenths / 8),
    stepM: fc.integer({ min: 0, max: 700 }),
    firstDay: fc.integer({ min: 0, max: 30 }),
    lastDay: fc.integer({ min: 30, max: 60 }),
  });
  fc.assert(
    fc.property(fc.array(anyStop, { minLength: 1, maxLength: 10 }), (route) => {
      const starts = splitRoute(route, LIMITS);
      // 1e-9: sums taken in another order.
      expect(total(partsOf(route, starts))).toBeCloseTo(cheapestByBruteForce(route), 9);
    }),
    { seed: 3, numRuns: 300 },
  );
});

test("an empty route has no parts, one long stop is a part alone", () => {
  expect(splitRoute([], LIMITS)).toEqual([]);
  expect(splitRoute([stop(1), stop(20), stop(1)], LIMITS)).toEqual([0, 1, 2]);
});

test("sixteen hours of equal stops make two days of eight", () => {
  // 16 stops of 1 h: 2 parts are the fewest that keep to 8.8 h, and only 8 + 8 keeps both.
  expect(splitRoute(Array(16).fill(stop(1)), LIMITS)).toEqual([0, 8]);
});

test("a step of more than 500 m and windows without a common week are cut", () => {
  expect(splitRoute([stop(2), stop(2, 501), stop(2)], LIMITS)).toEqual([0, 1]);
  expect(splitRoute([stop(2, 0, 0, 10), stop(2, 5, 4, 20), stop(2, 5, 11, 20)], LIMITS)).toEqual([0, 1]);
});
