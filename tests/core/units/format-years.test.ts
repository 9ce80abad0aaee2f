import { expect, it } from "vitest";
import { formatYears, numberWords, wholeYears } from "../../../src/core/units/format-years.ts";

it("says years in whole ones, rounded down, so that none is promised that is not held", () => {
  expect([0, 0.95, 1, 1.95, 2, 5, 12.3].map(formatYears)).toEqual([
    "less than a year",
    "less than a year",
    "one year",
    "one year",
    "two years",
    "five years",
    "12 years",
  ]);
  // A sum of half years that is 5 but for its last bit.
  expect(wholeYears(0.3048 / 0.12 + (5 - 0.3048 / 0.12) - 1e-12)).toBe(5);
  expect(wholeYears(-1)).toBe(0);
});

it("says small numbers in words", () => {
  expect([0, 1, 10, 11].map(numberWords)).toEqual(["no", "one", "ten", "11"]);
});
