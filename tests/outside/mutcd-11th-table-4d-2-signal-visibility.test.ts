// Source: Manual on Uniform Traffic Control Devices, 11th edition (2023), Table 4D-2, minimum sight distance for signal visibility by 85th-percentile
// speed (second-hand: page notes of the manual, read twice). Values typed from it; they must come out exactly.

import { describe, expect, it } from "vitest";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { viewDistanceM } from "../../src/core/surroundings/sight/faces/view-distance-m.ts";

const { signals } = usCommon().views.faces;
const feet = (mph: number): number => viewDistanceM(signals, mph * 1.609344, true) / 0.3048;

describe("distance from which a signal's faces must be seen, MUTCD Table 4D-2", () => {
  it.each([
    [20, 175],
    [25, 215],
    [30, 270],
    [35, 325],
    [40, 390],
    [45, 460],
    [50, 540],
    [55, 625],
    [60, 715],
  ])("at %i mph is %i ft", (mph, distanceFt) => {
    expect(feet(mph)).toBeCloseTo(distanceFt, 9);
  });

  it("lies between two rows at a speed between them, and goes on along the line beyond them", () => {
    expect(feet(32.5)).toBeCloseTo(297.5, 9);
    // 8 ft a mph below 20 mph, 18 ft a mph above 60 mph.
    expect(feet(15)).toBeCloseTo(135, 9);
    expect(feet(65)).toBeCloseTo(805, 9);
  });
});
