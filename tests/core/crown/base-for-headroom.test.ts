import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { baseForHeadroomM } from "../../../src/core/crown/base-for-headroom.ts";
import { lowerSurfaceM } from "../../../src/core/crown/crown.ts";
import { HABITS } from "../../../src/core/model/terms.ts";

describe("baseForHeadroomM", () => {
  it("puts an ellipsoid's underside where it was measured", () => {
    // At 0.6 of the radius the underside is a tenth of the crown above its base: (3.45 - 0.1 * 12) / 0.9 = 2.5.
    expect(baseForHeadroomM("ellipsoid", 12, 0.6, 3.45)).toBeCloseTo(2.5, 9);
    // Over the trunk it is the base itself.
    expect(baseForHeadroomM("ellipsoid", 12, 0, 3.45)).toBeCloseTo(3.45, 9);
  });

  it("never goes below the ground or leaves no crown, and has no answer at the crown's edge", () => {
    // (0.5 - 1.2) / 0.9 is below the ground; a headroom over the top leaves a twentieth of the height.
    expect(baseForHeadroomM("ellipsoid", 12, 0.6, 0.5)).toBe(0);
    expect(baseForHeadroomM("ellipsoid", 12, 0.6, 14)).toBeCloseTo(11.4, 9);
    for (const share of [1, 1.2, Number.POSITIVE_INFINITY]) {
      expect(baseForHeadroomM("ellipsoid", 12, share, 3)).toBeNull();
    }
  });

  it("is the reverse of the lower surface for every habit", () => {
    const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...HABITS),
        between(5, 30),
        between(0, 0.9),
        between(0, 0.9),
        (habit, heightM, at, share) => {
          const crownBaseM = heightM * at;
          const radii = { northM: 4, eastM: 4, southM: 4, westM: 4 };
          const lowM = lowerSurfaceM({ heightM, crownBaseM, radii, habit }, 4 * share, 90);
          fc.pre(lowM < heightM * 0.95);
          const baseM = baseForHeadroomM(habit, heightM, share, lowM)!;
          // A millionth of a meter: a vase's underside is nearly as high as its top where it is wide.
          expect(Math.abs(baseM - crownBaseM)).toBeLessThan(1e-6);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });
});
