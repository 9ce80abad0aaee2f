import { describe, expect, it } from "vitest";
import { stoppingSightDistanceFt, stoppingSightDistanceM } from "../../src/core/standard/stopping-sight-distance-ft.ts";
import { roundUpTo5 } from "../../src/core/surroundings/sight/intersection-sight-distance-ft.ts";

/**
 * Formula: TxDOT Roadway Design Manual 4.11.1 (read), 2.5 s and 11.2 ft/s2.
 * Design values, level road: 30 to 70 mph MoDOT Engineering Policy Guide Table 903.3.1, which cites the Green Book 2018 Table 3-1 (read);
 * 20, 25 and 75 mph MUTCD 11th edition Table 6B-2 (second-hand); 15 and 80 mph Green Book chapter 9 as scanned in a city's agenda of
 * 18 April 2017 (second-hand). Metric design values: the same scan (second-hand). On a grade: Montana DOT Road Design Manual chapter 2, equation
 * 2.8-3, example of its appendix K (read).
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

const DESIGN_M: readonly (readonly [kmh: number, m: number])[] = [
  [20, 20],
  [30, 35],
  [40, 50],
  [50, 65],
  [60, 85],
  [70, 105],
  [80, 130],
  [90, 160],
  [100, 185],
  [110, 220],
  [120, 250],
  [130, 285],
];

describe("stopping sight distance", () => {
  it.each(DESIGN_FT)("at %i mph is %i ft by design, exactly", (mph, ft) => {
    expect(roundUpTo5(stoppingSightDistanceFt(mph))).toBe(ft);
  });

  it("at 60 mph is 566 ft before rounding (PE workshop example)", () => {
    // Published to the foot; 0.5 ft is its rounding.
    expect(Math.abs(stoppingSightDistanceFt(60) - 566)).toBeLessThan(0.5);
  });

  it.each(DESIGN_M)("at %i km/h is %i m by design, exactly", (kmh, m) => {
    expect(roundUpTo5(stoppingSightDistanceM(kmh))).toBe(m);
  });

  it("at 60 mph down a grade of 5 percent is 623.4 ft, 624 by design to the foot (Montana, appendix K)", () => {
    // Published to a tenth; 0.2 ft allows for rounding of its parts.
    expect(Math.abs(stoppingSightDistanceFt(60, -5) - 623.4)).toBeLessThan(0.2);
    expect(Math.ceil(stoppingSightDistanceFt(60, -5))).toBe(624);
  });

  it("agrees with the form that a guide for engineers prints, 55/15 V + 1.075 V^2 / (11.2 + 0.32 G)", () => {
    // 621.9376 and 261.0828 ft, cited in a forum for calculators: 0.32 for 0.322 and 1.075 for 32.2/30, hence 0.3 ft.
    expect(Math.abs(stoppingSightDistanceFt(65, 2) - 621.9376)).toBeLessThan(0.3);
    expect(Math.abs(stoppingSightDistanceFt(35, -4) - 261.0828)).toBeLessThan(0.3);
  });
});
