import { expect, it } from "vitest";
import { randomStream } from "../../../sample-geojson/make/random.ts";
import { rounded } from "../../../src/core/plan/bough-properties.ts";

/** The definition: the decimal that `toFixed` writes, read as a number. */
const byText = (value: number, decimals: number): number => Number(value.toFixed(decimals));

it("is the number that the rounded decimal names, to the last bit", () => {
  const random = randomStream("rounded");
  const different: [number, number][] = [];
  for (let at = 0; at < 200_000; at += 1) {
    const decimals = [0, 1, 2, 3, 4, 6, 8][at % 7]!;
    const tie = (Math.round(random.between(-1e5, 1e5)) + 0.5) / 10 ** decimals;
    const value = [random.between(-200, 200), random.between(-1e-6, 1e-6), random.between(-1e9, 1e9), tie][at % 4]!;
    if (!Object.is(rounded(value, decimals), byText(value, decimals))) different.push([value, decimals]);
  }
  expect(different).toEqual([]);
});

it.each([0, -0, 0.5, -0.5, 1.5, 1.005, 1e-320, 1e21, 1e300, Number.NaN, Number.POSITIVE_INFINITY])(
  "takes %d",
  (value) => {
    for (const decimals of [0, 1, 3, 8, 12]) expect(rounded(value, decimals)).toBe(byText(value, decimals));
  },
);
