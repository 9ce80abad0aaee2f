// Sharma, Wu and Dalal 2005, "The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary Test Data, and Mathematical
// Observations", Color Research and Application 30(1), table 1: pairs of CIELAB colors with their difference to four decimals.
// Pairs 1 to 3, 7, 9, 13, 17, 20, 21, 25, 31 and 34 are typed from memory of the table; a wrong digit would show as a difference of its size.
import { expect, test } from "vitest";
import { colorDifference, type Lab } from "../map/color/color-difference.ts";

const PAIRS: readonly (readonly [pair: number, first: Lab, second: Lab, difference: number])[] = [
  [1, [50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
  [2, [50, 3.1571, -77.2803], [50, 0, -82.7485], 2.8615],
  [3, [50, 2.8361, -74.02], [50, 0, -82.7485], 3.4412],
  [7, [50, 0, 0], [50, -1, 2], 2.3669],
  [9, [50, 2.49, -0.001], [50, -2.49, 0.0009], 7.1792],
  [13, [50, -0.001, 2.49], [50, 0.0009, -2.49], 4.8045],
  [17, [50, 2.5, 0], [73, 25, -18], 27.1492],
  [20, [50, 2.5, 0], [58, 24, 15], 19.4535],
  [21, [50, 2.5, 0], [50, 3.1736, 0.5854], 1.0],
  [25, [60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644],
  [31, [90.8027, -2.0831, 1.441], [91.1528, -1.6435, 0.0447], 1.4441],
  [34, [2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082],
];

test.each(PAIRS)("pair %i", (_pair, first, second, difference) => {
  // The table gives four decimals.
  expect(Math.abs(colorDifference(first, second) - difference)).toBeLessThanOrEqual(0.00005001);
  expect(colorDifference(second, first)).toBeCloseTo(difference, 4);
});
