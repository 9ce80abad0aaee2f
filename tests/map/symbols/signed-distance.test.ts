import { expect, test } from "vitest";
import { ringLengthPx, signedDistance } from "../../../src/map/symbols/signed-distance.ts";

const SQUARE = [
  [-2, -2],
  [2, -2],
  [2, 2],
  [-2, 2],
] as const;

test("distances to a square of side 4 are positive inside and negative outside", () => {
  expect(signedDistance(SQUARE, 0, 0).distancePx).toBe(2);
  expect(signedDistance(SQUARE, 1.5, 0).distancePx).toBe(0.5);
  expect(signedDistance(SQUARE, 3, 0).distancePx).toBe(-1);
  // Beyond the corner (2, 2): a 3-4-5 triangle.
  expect(signedDistance(SQUARE, 5, 6).distancePx).toBe(-5);
});

test("the nearest point's place along the outline counts from the first corner", () => {
  expect(signedDistance(SQUARE, 1, -2.5).alongPx).toBe(3);
  expect(signedDistance(SQUARE, 2.5, 1).alongPx).toBe(4 + 3);
  expect(ringLengthPx(SQUARE)).toBe(16);
});
