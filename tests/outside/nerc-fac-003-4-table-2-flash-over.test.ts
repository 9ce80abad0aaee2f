// Source: NERC FAC-003-4 Table 2, alternating current, in feet. One cell is second-hand, in two independent texts: 345 kV at sea level, 4.3 ft,
// about 1.3 m. The other cells in the standard are memory, so that only their order is tested here, and, within 5 %, the first band against
// the Gallet formula (its constants 3400 and 8 second-hand, the rest memory): V50 = k 3400 / (1 + 8/D), gap factor k 1, V50 the peak of the
// transient overvoltage over 0.878, 2.0 per unit below 362 kV and 1.4 from there. The code looks the table up and never computes it.
import { describe, expect, it, test } from "vitest";
import { conductorRuleOf, minimumAtM } from "../../src/core/standard/conductor-rule.ts";
import { shipped } from "../core/standard/shipped.ts";

const FT = 0.3048;
const standard = shipped("transmission");
const CLASSES = [
  { kV: 69, maxKV: 72 },
  { kV: 88, maxKV: 100 },
  { kV: 115, maxKV: 121 },
  { kV: 138, maxKV: 145 },
  { kV: 161, maxKV: 169 },
  { kV: 230, maxKV: 242 },
  { kV: 287, maxKV: 302 },
  { kV: 345, maxKV: 362 },
  { kV: 500, maxKV: 550 },
  { kV: 765, maxKV: 800 },
];
const distanceFt = (kV: number, altitudeM: number | null): number => {
  const rule = conductorRuleOf(standard, kV * 1000);
  return rule === null ? Number.NaN : (minimumAtM(rule, altitudeM) ?? Number.NaN) / FT;
};

it("345 kV at sea level keeps 4.3 ft, about 1.3 m", () => {
  expect(distanceFt(345, 0)).toBeCloseTo(4.3, 9);
  // "About": to 0.1 m.
  expect(Math.abs(distanceFt(345, 0) * FT - 1.3)).toBeLessThanOrEqual(0.05);
});

it("287 kV keeps more than 345 kV at every altitude: distances do not grow with voltage alone", () => {
  for (let ft = 0; ft <= 15_000; ft += 500) {
    expect(distanceFt(287, ft * FT)).toBeGreaterThan(distanceFt(345, ft * FT));
  }
});

describe.each(CLASSES)("the class of $kV kV", ({ kV, maxKV }) => {
  it("never falls with altitude", () => {
    for (let ft = 250; ft <= 15_000; ft += 250) {
      expect(distanceFt(kV, ft * FT)).toBeGreaterThanOrEqual(distanceFt(kV, (ft - 250) * FT));
    }
  });

  it("holds up to its maximum voltage, and the next class from there", () => {
    expect(distanceFt(maxKV, 0)).toBe(distanceFt(kV, 0));
    const next = CLASSES[CLASSES.findIndex((one) => one.kV === kV) + 1];
    expect(distanceFt(maxKV + 0.001, 0)).toBe(next === undefined ? Number.NaN : distanceFt(next.kV, 0));
  });

  it("takes its largest distance at an unknown altitude, and none above 15,000 ft", () => {
    expect(distanceFt(kV, null)).toBe(distanceFt(kV, 15_000 * FT));
    expect(distanceFt(kV, 15_001 * FT)).toBeNaN();
  });

  it("is near the Gallet formula at sea level", () => {
    const overvoltage = maxKV >= 362 ? 1.4 : 2;
    const v50 = (maxKV * Math.sqrt(2 / 3) * overvoltage) / 0.878;
    const byFormulaFt = 8 / (3400 / v50 - 1) / FT;
    // 5 % for the formula, half of the last printed digit for the table.
    expect(Math.abs(distanceFt(kV, 0) - byFormulaFt)).toBeLessThanOrEqual(0.05 * byFormulaFt + 0.05);
  });
});

test("lines of 200 kV and more are in a class of their own rule", () => {
  for (const kV of [200, 242, 500, 800]) {
    expect(conductorRuleOf(standard, kV * 1000)?.id).toMatch(/^conductor-transmission-/);
  }
});
