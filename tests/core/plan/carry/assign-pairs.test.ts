import fc from "fast-check";
import { expect, it } from "vitest";
import { assignPairs, type WeighedPair } from "../../../../src/core/plan/carry/assign-pairs.ts";

const costOf = (pairs: readonly WeighedPair[]): number => pairs.reduce((sum, { cost }) => sum + cost, 0);

/** Costs more than every pair drawn below. */
const ALONE = 10;

/** The least cost of all choices, by trying all: what the pairs taken cost, less what their old trees would cost alone. */
function bestOf(pairs: readonly WeighedPair[]): number {
  const [first, ...rest] = pairs;
  if (first === undefined) return 0;
  const others = rest.filter(({ oldRow, newRow }) => oldRow !== first.oldRow && newRow !== first.newRow);
  return Math.min(bestOf(rest), bestOf(others) + first.cost - ALONE);
}

const scene = fc.array(
  fc.record({
    oldRow: fc.integer({ min: 0, max: 4 }),
    newRow: fc.integer({ min: 0, max: 4 }),
    cost: fc.integer({ min: 0, max: 9 }),
  }),
  { maxLength: 9 },
);

it("costs as little as the cheapest of all choices", () => {
  fc.assert(
    fc.property(scene, (drawn) => {
      const once = [...new Map(drawn.map((pair) => [`${pair.oldRow},${pair.newRow}`, pair])).values()];
      const chosen = assignPairs(once, ALONE);
      expect(new Set(chosen.map(({ oldRow }) => oldRow)).size).toBe(chosen.length);
      expect(new Set(chosen.map(({ newRow }) => newRow)).size).toBe(chosen.length);
      // Whole numbers are exact in sums of a few.
      expect(costOf(chosen) - ALONE * chosen.length).toBe(bestOf(once));
    }),
    { seed: 7, numRuns: 2000 },
  );
});
