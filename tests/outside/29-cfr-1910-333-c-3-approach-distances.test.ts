// Source: 29 CFR 1910.333(c)(3)(i)(A), read in OSHA's text: 10 ft up to 50 kV to ground, then 4 in for every 10 kV over 50 kV; Washington
// 296-24-960 writes it pro rata, 0.4 in per kV. Line-to-line voltage divided by the root of 3 is the voltage to ground. The cases are
// this arithmetic in feet, by rule for six common line voltages.
import { describe, expect, it, test } from "vitest";
import { approachDistanceM } from "../../src/core/standard/approach-distance.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { feetFromMeters } from "../../src/core/units/length.ts";

const CASES = [
  { kV: 12.47, proRataFt: 10, wholeStepFt: 10 },
  { kV: 69, proRataFt: 10, wholeStepFt: 10 },
  { kV: 115, proRataFt: 10.547, wholeStepFt: 10.667 },
  { kV: 138, proRataFt: 10.989, wholeStepFt: 11 },
  { kV: 230, proRataFt: 12.76, wholeStepFt: 13 },
  { kV: 345, proRataFt: 14.973, wholeStepFt: 15 },
  { kV: 500, proRataFt: 17.956, wholeStepFt: 18 },
];
const standard = usCommon();
const distanceFt = (kV: number | null): number =>
  feetFromMeters(approachDistanceM(standard, kV === null ? null : kV * 1000));
const byRuleFt = (kV: number, stepKV: number): number => {
  const steps = Math.max(0, (kV / Math.sqrt(3) - 50) / 10);
  return 10 + (4 / 12) * (stepKV === 0 ? steps : Math.ceil(steps));
};

describe("the rule as quoted gives the published cases", () => {
  // Three decimals are quoted.
  test.each(CASES)("at $kV kV", ({ kV, proRataFt, wholeStepFt }) => {
    expect(byRuleFt(kV, 0)).toBeCloseTo(proRataFt, 3);
    expect(byRuleFt(kV, 10)).toBeCloseTo(wholeStepFt, 3);
  });
});

describe("the standard's table", () => {
  test.each(CASES)("keeps at least the whole-step distance at $kV kV", ({ kV, wholeStepFt }) => {
    expect(distanceFt(kV)).toBeGreaterThanOrEqual(wholeStepFt - 0.001);
    // The top of a class lies at most three steps of 4 in above its usual voltage.
    expect(distanceFt(kV) - wholeStepFt).toBeLessThanOrEqual(1.001);
  });

  it("is the whole-step distance exactly at the top of every class", () => {
    for (const { upToV } of standard.conductor.approach) {
      expect(distanceFt(upToV / 1000)).toBeCloseTo(byRuleFt(upToV / 1000, 10), 9);
    }
  });

  it("is never under the pro-rata distance, at any voltage up to its top", () => {
    for (let kV = 1; kV <= 800; kV += 1) expect(distanceFt(kV)).toBeGreaterThanOrEqual(byRuleFt(kV, 0) - 1e-9);
  });

  it("takes its largest distance for an unknown voltage and above its top", () => {
    expect(distanceFt(null)).toBeCloseTo(24, 9);
    expect(distanceFt(1200)).toBeCloseTo(24, 9);
  });
});
