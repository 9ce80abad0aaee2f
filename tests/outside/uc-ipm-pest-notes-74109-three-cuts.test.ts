// Source: University of California Integrated Pest Management, Pest Notes 74109, drawing of branch removal: limbs larger than about 2 in in
// three cuts: the first from below, about one fourth through, 1 or 2 feet from the trunk; the second about 2 in beyond it, from above; the
// last just outside branch bark ridge and collar. Read on the publisher's page. 1 in = 0.0254 m, 1 ft = 0.3048 m exactly.
import { expect, test } from "vitest";
import { threeCutDistances } from "../../src/core/crown/cuts/three-cut-distances.ts";

test.each([0.051, 0.1, 0.3])(
  "a limb of %d m, over 2 in, is undercut 1 to 2 ft out and cut through 2 in beyond",
  (diameterM) => {
    const distances = threeCutDistances(diameterM);
    // Twelve-figure agreement: only the order of multiplications differs.
    expect(distances.undercutFromM).toBeCloseTo(0.3048, 12);
    expect(distances.undercutToM).toBeCloseTo(0.6096, 12);
    expect(distances.undercutShare).toBe(0.25);
    expect(distances.topCutBeyondM).toBeCloseTo(0.0508, 12);
  },
);
