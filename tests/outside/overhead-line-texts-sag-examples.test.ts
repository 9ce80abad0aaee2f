// Source: texts on overhead lines. Read: the parabola's and the catenary's formulas in several texts, and one example (1 kg/m, 500 m,
// 10 000 kg: 3.125 m). From memory: two examples (260 m; 200 m), recomputed; their inputs and answers agree with the formulas. Inputs read, answers
// arithmetic: two more (160 m; 150 m with ice). Parabola against catenary: arithmetic. Gravity cancels, so kilograms stand for forces.
import { describe, expect, it, test } from "vitest";
import { catenaryParameterM, catenarySagM } from "../../src/core/crown/wire/catenary-sag.ts";
import { parabolaSagM } from "../../src/core/crown/wire/parabola-sag.ts";
import { catenaryLengthM } from "../../src/core/surroundings/conductors/conductor-length.ts";
import { wireLoad } from "../../src/core/surroundings/conductors/wire-load.ts";
import { swingAngleRad } from "../../src/core/surroundings/conductors/wire-swing.ts";
import { STANDARD_GRAVITY_M_S2 as G } from "../../src/core/units/force.ts";

describe("1 kg/m in 500 m at 10 000 kg (read)", () => {
  it("sags 3.125 m as a parabola", () => {
    expect(parabolaSagM(500, 1 * G, 10_000 * G)).toBeCloseTo(3.125, 12);
  });
  it("sags 3.1252 m as a catenary (arithmetic)", () => {
    // Stated to four decimals.
    expect(Math.abs(catenarySagM(500, 10_000) - 3.1252)).toBeLessThan(0.00006);
  });
});

describe("parabola against catenary of equal tension (arithmetic)", () => {
  // Sag over span in percent: error of the parabola in percent of the catenary's sag, and length over span.
  test.each([
    [1, 0.013, 1.000267],
    [2, 0.053, 1.001066],
    [3, 0.12, 1.002396],
    [5, 0.33, 1.006636],
    [8, 0.835, 1.016868],
    [10, 1.289, 1.026187],
    [15, 2.787, 1.057674],
  ])("at a sag of %d %% of the span it is %d %% too small", (percent, errorPercent, lengthShare) => {
    // The table is by the catenary's sag; 0.0006 is its rounding.
    const parameterM = catenaryParameterM(100, percent);
    const errorFound = 100 * (1 - parabolaSagM(100, 1, parameterM) / percent);
    expect(Math.abs(errorFound - errorPercent)).toBeLessThan(0.0006);
    expect(Math.abs(catenaryLengthM(100, parameterM) / 100 - lengthShare)).toBeLessThan(0.000001);
  });
});

describe("from memory, beside the cases above", () => {
  it("0.68 kg/m in 260 m, 3100 kg at a safety factor of 2, sags 3.7 m: supports of 13.7 m over a clearance of 10 m", () => {
    const sagM = parabolaSagM(260, 0.68 * G, (3100 / 2) * G);
    // Stated to a tenth; recomputed 3.707 m.
    expect(Math.abs(sagM - 3.707)).toBeLessThan(0.0006);
    expect((10 + sagM).toFixed(1)).toBe("13.7");
  });

  it("1.29 cm2 and 1.17 kg/m in 200 m, 4218 kg/cm2 at 5, wind 122 kg/m2, sags 8.97 m, 5.38 m of it down", () => {
    const diameterM = Math.sqrt((4 * 1.29e-4) / Math.PI);
    const load = wireLoad({ diameterM, weightNPerM: 1.17 * G }, 122 * G, 0);
    const sagM = parabolaSagM(200, load.resultantNPerM, ((1.29 * 4218) / 5) * G);
    expect(Math.abs(load.resultantNPerM / G - 1.953)).toBeLessThan(0.0006);
    // Published 8.96 and 5.37 with rounded steps; 0.015 m is their rounding.
    expect(Math.abs(sagM - 8.96)).toBeLessThan(0.015);
    expect(Math.abs(sagM * Math.cos(swingAngleRad(load)) - 5.37)).toBeLessThan(0.015);
  });
});

describe("inputs read, answers arithmetic", () => {
  it("0.95 cm and 0.65 kg/m in 160 m, 4250 kg/cm2 at 5, wind 40 kg/m2", () => {
    const load = wireLoad({ diameterM: 0.0095, weightNPerM: 0.65 * G }, 40 * G, 0);
    const tensionN = ((4250 * Math.PI * 0.95 ** 2) / 4 / 5) * G;
    const sagM = parabolaSagM(160, load.resultantNPerM, tensionN);
    // Stated to a thousandth, of rounded steps.
    expect(Math.abs(sagM - 3.999)).toBeLessThan(0.0015);
    expect(Math.abs(sagM * Math.cos(swingAngleRad(load)) - 3.452)).toBeLessThan(0.0015);
  });

  it("2.80 cm and 1.52 kg/m in 150 m, 12 900 kg at 2, 1.25 cm of ice of 912 kg/m3, wind 20 kg/m2", () => {
    const load = wireLoad({ diameterM: 0.028, weightNPerM: 1.52 * G }, 20 * G, 0.0125, 912 * G);
    const sagM = parabolaSagM(150, load.resultantNPerM, (12_900 / 2) * G);
    expect(Math.abs(load.verticalNPerM / G - 1.52 - 1.45)).toBeLessThan(0.0006);
    expect(Math.abs(load.verticalNPerM / G - 2.97)).toBeLessThan(0.0006);
    expect(Math.abs(load.windNPerM / G - 1.06)).toBeLessThan(0.0006);
    expect(Math.abs(load.resultantNPerM / G - 3.154)).toBeLessThan(0.0006);
    expect(Math.abs(sagM - 1.375)).toBeLessThan(0.0006);
    expect(Math.abs(sagM * Math.cos(swingAngleRad(load)) - 1.295)).toBeLessThan(0.0006);
  });
});
