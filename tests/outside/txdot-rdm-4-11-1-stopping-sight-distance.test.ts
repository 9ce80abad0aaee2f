import { describe, expect, it } from "vitest";
import { roundUpTo5 } from "../../src/core/surroundings/sight/intersection-sight-distance-ft.ts";
import { stoppingSightDistanceFt } from "../../src/core/surroundings/sight/stopping-sight-distance-ft.ts";

/**
 * Formula: TxDOT Roadway Design Manual 4.11.1 (read), 2.5 s and 11.2 ft/s2.
 * Design values, level road: 30 to 70 mph MoDOT Engineering Policy Guide Table 903.3.1, which cites the Green Book 2018 Table 3-1 (read);
 * 20, 25 and 75 mph MUTCD 11th edition Table 6B-2 (second-hand); 15 and 80 mph Green Book chapter 9 as scanned in a city's agenda of
 * 18 April 2017 (second-hand).
 */
const DESIGN_FT: readonly (readonly [mph: number, ft: number])[] = [
  [15, 80],
  [20, 115],
  [25, 155],
  [30, 200],
  [35, 250],
  [40, 305],
  [45, 360],
  [50, 425],
  [55, 495],
  [60, 570],
  [65, 645],
  [70, 730],
  [75, 820],
  [80, 910],
];

describe("stopping sight distance", () => {
  it.each(DESIGN_FT)("at %i mph is %i ft by design, exactly", (mph, ft) => {
    expect(roundUpTo5(stoppingSightDistanceFt(mph))).toBe(ft);
  });

  it("at 60 mph is 566 ft before rounding (PE workshop example)", () => {
    // Published to the foot; 0.5 ft is its rounding.
    expect(Math.abs(stoppingSightDistanceFt(60) - 566)).toBeLessThan(0.5);
  });
});
