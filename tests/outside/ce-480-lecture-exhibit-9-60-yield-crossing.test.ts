import { expect, it } from "vitest";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import {
  intersectionSightDistanceFt,
  roundUpTo5,
} from "../../src/core/surroundings/sight/intersection-sight-distance-ft.ts";
import { yieldCrossing } from "../../src/core/surroundings/sight/yield-crossing.ts";
import { feetFromMeters, KMH_PER_MPH, metersFromFeet } from "../../src/core/units/length.ts";

/**
 * Source: lecture of a civil engineering course, CE 480, 2010 (read), crossing from a yield, case C1, after the Green Book's exhibit 9-60: major
 * road 45 mph, minor road 25 mph, two lanes of 12 ft, car of 19 ft, level. Leg on the minor road a = 130 ft, ta = 4.0 s, tg = 6.5 s, b = 430 ft.
 */
it("crosses from a yield in the lecture's figures", () => {
  const rules = usCommon().sight;
  const twoLanesM = metersFromFeet(24);
  const { legM, gapS } = yieldCrossing(rules, 25 * KMH_PER_MPH, twoLanesM, rules.gaps.crossing.seconds.passenger);
  expect(feetFromMeters(legM)).toBeCloseTo(130, 6);
  // 4.0 + (24 + 19) / (0.88 * 25) = 5.95 s, so the crossing's 6.5 s from a stop holds.
  expect(gapS).toBe(6.5);
  expect(roundUpTo5(intersectionSightDistanceFt(45, gapS))).toBe(430);
  // Without that floor the formula itself: ta read, the rest arithmetic.
  expect(yieldCrossing(rules, 25 * KMH_PER_MPH, twoLanesM, 0).gapS).toBeCloseTo(4 + 43 / 22, 9);
});
