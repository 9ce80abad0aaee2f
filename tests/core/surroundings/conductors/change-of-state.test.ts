import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parabolaSagM, parabolaTensionN } from "../../../../src/core/crown/wire/parabola-sag.ts";
import { acsrConductor } from "../../../../src/core/surroundings/conductors/acsr-table.ts";
import { changedTensionN, cubicRoot } from "../../../../src/core/surroundings/conductors/change-of-state.ts";
import { conductorLengthM } from "../../../../src/core/surroundings/conductors/conductor-length.ts";
import { rulingSpanM, sagByOtherSpanM } from "../../../../src/core/surroundings/conductors/ruling-span.ts";

const wire = acsrConductor("4/0")!;
const runs = { seed: 1, numRuns: 500 } as const;

describe("the cubic", () => {
  it("x^3 + 2 x^2 = 16 has the root 2, x^3 - 5 x^2 = 36 the root 6", () => {
    expect(cubicRoot(2, 16)).toBeCloseTo(2, 14);
    expect(cubicRoot(-5, 36)).toBeCloseTo(6, 14);
  });

  it("is solved for any coefficients", () => {
    const exponent = fc.double({ min: -12, max: 12, noNaN: true });
    fc.assert(
      fc.property(exponent, exponent, fc.boolean(), (b, c, isNegative) => {
        const by = isNegative ? -(10 ** b) : 10 ** b;
        const right = 10 ** c;
        const x = cubicRoot(by, right);
        const size = x ** 3 + Math.abs(by) * x * x + right;
        expect(x).toBeGreaterThan(0);
        // A rounding error in x, at the size of the terms.
        expect(Math.abs(x * x * (x + by) - right)).toBeLessThan(1e-13 * size);
      }),
      runs,
    );
  });
});

describe("a span of 60 m of 4/0 at 60 F", () => {
  const weight = wire.weightNPerM;
  const strungN = parabolaTensionN(60, weight, 1);
  const from = { loadNPerM: weight, temperatureC: 15 };
  const sagAt = (temperatureC: number, loadNPerM = weight): number =>
    parabolaSagM(60, loadNPerM, changedTensionN(60, wire, strungN, from, { loadNPerM, temperatureC }));

  it("is as it was when nothing changes", () => expect(sagAt(15)).toBeCloseTo(1, 12));

  it("sags more when warm, less when cold, more under ice", () => {
    expect(sagAt(50)).toBeGreaterThan(1.2);
    expect(sagAt(-18)).toBeLessThan(0.8);
    expect(sagAt(15, 3 * weight)).toBeGreaterThan(1);
  });

  it("comes back by the way it went", () => {
    const hotN = changedTensionN(60, wire, strungN, from, { loadNPerM: 20, temperatureC: -18 });
    const backN = changedTensionN(60, wire, hotN, { loadNPerM: 20, temperatureC: -18 }, from);
    expect(Math.abs(backN / strungN - 1)).toBeLessThan(1e-10);
  });

  it("changes its length by heat and pull, and by nothing else; on a slope too", () => {
    for (const riseM of [0, 20]) {
      const chordM = Math.hypot(60, riseM);
      const firstN = parabolaTensionN(60, weight, 1, riseM);
      const lastN = changedTensionN(60, wire, firstN, from, { loadNPerM: 11, temperatureC: 40 }, riseM);
      const grownM = conductorLengthM(60, parabolaSagM(60, 11, lastN, riseM), riseM) - conductorLengthM(60, 1, riseM);
      const pullN = ((lastN - firstN) * chordM) / 60;
      const wantedM = chordM * (25 * wire.expansionPerK + pullN / wire.stiffnessN);
      // Both sides are millimeters; a nanometer is rounding.
      expect(Math.abs(grownM - wantedM)).toBeLessThan(1e-9);
    }
  });

  it("refuses a slack or weightless wire", () => {
    expect(() => changedTensionN(60, wire, 0, from, from)).toThrow(RangeError);
    expect(() => changedTensionN(60, wire, 1, { loadNPerM: 0, temperatureC: 0 }, from)).toThrow(RangeError);
  });
});

describe("unequal spans", () => {
  it("sag by the square of their lengths", () => expect(sagByOtherSpanM(2, 100, 50)).toBe(0.5));
  it("have the ruling span sqrt((27 + 1) / 4) of 3 and 1", () =>
    expect(rulingSpanM([3, 1])).toBeCloseTo(Math.sqrt(7), 14));
  it("of one length have that length", () => expect(rulingSpanM([40, 40, 40])).toBeCloseTo(40, 12));
  it("refuse none", () => expect(() => rulingSpanM([])).toThrow("at least one span"));
});
