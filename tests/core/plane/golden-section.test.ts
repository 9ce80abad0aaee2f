import { expect, it } from "vitest";
import { GOLDEN_SHARE, leastByGoldenSection } from "../../../src/core/plane/golden-section.ts";

it("finds the bottom of a valley, or the lower end of a slope", () => {
  // After 40 turns 10 m are narrowed to 10 x 0.618^40 m; the parabola there differs by the square of that.
  expect(leastByGoldenSection(0, 10, 40, (x) => (x - 7) ** 2 + 3)).toBeCloseTo(3, 12);
  expect(leastByGoldenSection(2, 10, 40, (x) => x)).toBe(2);
  expect(leastByGoldenSection(2, 10, 40, (x) => -x)).toBe(-10);
});

it("looks once at an interval without length", () => {
  const looks: number[] = [];
  expect(leastByGoldenSection(4, 4, 40, (x) => looks.push(x))).toBe(1);
  expect(looks).toEqual([4]);
});

it("leaves the golden share of an interval after each turn", () => {
  expect(GOLDEN_SHARE ** 2 + GOLDEN_SHARE).toBeCloseTo(1, 15);
});
