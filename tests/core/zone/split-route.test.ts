import fc from "fast-check";
import { expect, test } from "vitest";
import { type DayLimits, type RouteStop, splitRoute } from "../../../src/core/zone/split-route.ts";

const LIMITS: DayLimits = { hoursPerDay: 8, longestStepM: 500 };
const stop = (hours: number, stepM = 10, firstDay = 0, lastDay = 100, dueDay = lastDay): RouteStop => ({
  hours,
  stepM,
  firstDay,
  lastDay,
  dueDay,
});

/** What a part costs, as the doc comment says it: 400 m, its walk, 2400 m times the square of what it lacks to 0.75 of a day, 5 m a day of waiting. */
function cost(part: readonly RouteStop[]): number {
  const hours = part.reduce((sum, one) => sum + one.hours, 0);
  const steps = part.slice(1).map((one) => one.stepM);
  const common = Math.min(...part.map((one) => one.lastDay)) - Math.max(...part.map((one) => one.firstDay)) + 1;
  const tightest = Math.min(...part.map((one) => one.lastDay - one.firstDay + 1));
  const isAllowed =
    part.length === 1 || (hours <= 8.8 && steps.every((step) => step <= 500) && common >= Math.min(7, tightest));
  if (!isAllowed) return Number.POSITIVE_INFINITY;
  const opening = Math.max(...part.map((one) => one.firstDay));
  const waiting = part.reduce((sum, one) => sum + Math.max(0, opening - one.dueDay), 0);
  return 5 * waiting + 400 + steps.reduce((sum, step) => sum + step, 0) + 2400 * Math.max(0, 0.75 - hours / 8) ** 2;
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
    firstDay: fc.integer({ min: 0, max: 50 }),
    lastDay: fc.integer({ min: 50, max: 60 }),
    dueDay: fc.integer({ min: 0, max: 60 }),
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
  // Days 4 to 10 and 11 to 20 are common to the first and the last two, none to all three; the longer step of 9 m is cut.
  expect(splitRoute([stop(2, 0, 0, 10), stop(2, 5, 4, 20), stop(2, 9, 11, 20)], LIMITS)).toEqual([0, 2]);
});

test("stops that are due are not kept waiting for late windows where another zone costs less", () => {
  // Together: 400 m + 10 m + 5 m x 90 days = 860 m and no short day (6 h). Apart, each lacks 0.375 of a day: 2 x (400 + 2400 x 0.375^2) = 1475 m.
  expect(splitRoute([stop(3, 0, 0, 120, 0), stop(3, 10, 90, 120)], LIMITS)).toEqual([0]);
  // With five of them waiting it is 5 x 5 m x 90 days = 2250 m.
  const early = Array.from({ length: 5 }, () => stop(1, 10, 0, 120, 0));
  expect(splitRoute([...early, stop(3, 10, 90, 120)], LIMITS)).toEqual([0, 5]);
});
