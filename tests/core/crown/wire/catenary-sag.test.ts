import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catenaryDropM, catenaryParameterM, catenarySagM } from "../../../../src/core/crown/wire/catenary-sag.ts";
import { catenaryDropShare, parabolaDropShare } from "../../../../src/core/crown/wire/drop-share.ts";
import { parabolaSagM, parabolaTensionN } from "../../../../src/core/crown/wire/parabola-sag.ts";
import { catenaryLengthM, conductorLengthM } from "../../../../src/core/surroundings/conductors/conductor-length.ts";
import { CATENARY_ABOVE_SHARE, spanSagM, spanTensionN } from "../../../../src/core/surroundings/conductors/span-sag.ts";

const spans = { seed: 1, numRuns: 300 } as const;
const span = fc.double({ min: 5, max: 400, noNaN: true });
const share = fc.double({ min: 0.002, max: 0.2, noNaN: true });
const slope = fc.double({ min: -0.5, max: 0.5, noNaN: true });

describe("a level catenary", () => {
  it("is a (cosh(L / 2a) - 1): 100 m at 250 m is 250 (cosh 0.2 - 1) = 5.0167 m", () => {
    expect(catenarySagM(100, 250)).toBeCloseTo(250 * (Math.cosh(0.2) - 1), 10);
  });

  it("drops by its sag in the middle and by nothing at the ends", () => {
    expect(catenaryDropM(100, 250, 0, 0.5)).toBeCloseTo(catenarySagM(100, 250), 10);
    expect(catenaryDropM(100, 250, 0, 0)).toBeCloseTo(0, 10);
    expect(catenaryDropM(100, 250, 0, 1)).toBeCloseTo(0, 10);
  });
});

describe("on a slope", () => {
  it("the drop in the middle is the sag, whatever the rise", () => {
    fc.assert(
      fc.property(span, share, slope, (spanM, sagShare, rise) => {
        const parameterM = catenaryParameterM(spanM, sagShare * spanM, rise * spanM);
        // 1e-9 of the parameter: cosh of some tenths times the parameter loses that much.
        expect(Math.abs(catenaryDropM(spanM, parameterM, rise * spanM, 0.5) - sagShare * spanM)).toBeLessThan(
          1e-9 * parameterM,
        );
      }),
      spans,
    );
  });

  it("the curve turns by load over tension everywhere, which makes it a catenary", () => {
    // y'' = sqrt(1 + y'^2) / a, by differences of 1 cm; 1e-3 is what they leave.
    const [spanM, parameterM, riseM] = [80, 120, 15];
    const y = (x: number): number => (riseM * x) / spanM - catenaryDropM(spanM, parameterM, riseM, x / spanM);
    for (const x of [5, 20, 40, 61, 75]) {
      const slopeHere = (y(x + 0.01) - y(x - 0.01)) / 0.02;
      const turn = (y(x + 0.01) - 2 * y(x) + y(x - 0.01)) / 0.0001;
      expect(Math.abs((turn * parameterM) / Math.hypot(1, slopeHere) - 1)).toBeLessThan(1e-3);
    }
  });

  it("the parabola approaches it as the wire is drawn tighter", () => {
    // Error of the parabola: 4/3 (D / L)^2, 3e-5 at 0.5 %; a slope of 20 % adds less than its square.
    const tensionN = parabolaTensionN(100, 1, 0.5, 20);
    expect(Math.abs(catenarySagM(100, tensionN, 20) / 0.5 - 1)).toBeLessThan(5e-5);
  });
});

describe("sag and tension", () => {
  it("are each other's inverse on both curves", () => {
    fc.assert(
      fc.property(span, share, slope, (spanM, sagShare, rise) => {
        // Between the parabola's and the catenary's 3 % lies a gap that no tension gives.
        fc.pre(Math.abs(sagShare / CATENARY_ABOVE_SHARE - 1) > 0.01);
        const sagM = sagShare * spanM;
        const tensionN = spanTensionN(spanM, 4, sagM, rise * spanM);
        expect(Math.abs(spanSagM(spanM, 4, tensionN, rise * spanM) / sagM - 1)).toBeLessThan(1e-9);
      }),
      spans,
    );
  });

  it("change curve by less than 0.2 % of the sag", () => {
    const tensionN = parabolaTensionN(100, 4, 100 * CATENARY_ABOVE_SHARE);
    expect(spanSagM(100, 4, tensionN * 1.0000001)).toBeLessThan(3);
    expect(spanSagM(100, 4, tensionN * 0.9999999) / 3 - 1).toBeLessThan(0.002);
  });

  it("refuse what is no span", () => {
    expect(() => parabolaSagM(0, 1, 1)).toThrow(RangeError);
    expect(() => parabolaSagM(10, 1, Number.NaN)).toThrow(RangeError);
    expect(() => catenaryParameterM(10, 11)).toThrow("at most the span of 10 m, got 11 m");
    expect(() => catenarySagM(10, -1)).toThrow(RangeError);
  });
});

describe("sag at a share of the span", () => {
  it("of a parabola is 3/4 at a quarter", () => expect(parabolaDropShare(0.25)).toBe(0.75));
  it("of a tight catenary is the same, of a slack one a little more", () => {
    expect(catenaryDropShare(100, 5000, 0, 0.25)).toBeCloseTo(0.75, 4);
    expect(catenaryDropShare(100, 60, 0, 0.25)).toBeGreaterThan(0.76);
  });
});

describe("length of wire", () => {
  it("is the sum of small pieces of the curve, for the catenary on a slope", () => {
    const [spanM, parameterM, riseM] = [80, 120, 15];
    let sum = 0;
    const y = (at: number): number => riseM * at - catenaryDropM(spanM, parameterM, riseM, at);
    for (let step = 0; step < 4000; step += 1) sum += Math.hypot(spanM / 4000, y((step + 1) / 4000) - y(step / 4000));
    // 4000 chords are short of the curve by 1e-7 of it.
    expect(Math.abs(catenaryLengthM(spanM, parameterM, riseM) - sum)).toBeLessThan(1e-5);
  });

  it("by the parabola's series is L + 8 D^2 / 3 L, near the catenary's on a slope as well", () => {
    expect(conductorLengthM(100, 3)).toBe(100 + 72 / 300);
    const parameterM = catenaryParameterM(100, 3, 20);
    // The series leaves out terms of (D / L)^4.
    expect(Math.abs(conductorLengthM(100, 3, 20) - catenaryLengthM(100, parameterM, 20))).toBeLessThan(0.003);
  });
});
