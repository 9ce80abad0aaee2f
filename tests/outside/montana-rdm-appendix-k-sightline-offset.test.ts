// Source: Montana Department of Transportation, Road Design Manual, appendix K, sight distance example (read): M = R (1 - cos(90 S / (pi R))) with
// R = 1400 ft and S = 570 ft gives 28.91 ft. The tolerance of 0.05 ft covers the rounding of 90/pi to 28.65, which gives 28.913 against 28.909.

import { describe, expect, it } from "vitest";
import {
  horizontalSightlineOffsetM,
  sightPastOffsetM,
} from "../../src/core/surroundings/sight/curves/horizontal-sightline-offset-m.ts";

describe("horizontal sightline offset, Montana Road Design Manual appendix K", () => {
  it("is 28.91 ft for a radius of 1400 ft and a sight distance of 570 ft", () => {
    expect(Math.abs(horizontalSightlineOffsetM(1400, 570) - 28.91)).toBeLessThan(0.05);
  });

  it("gives the sight distance back from the offset", () => {
    // A hundredth of a foot of offset is a tenth of a foot of sight distance here: dS/dM = 1 / sin(S / 2R) = 4.9.
    expect(Math.abs(sightPastOffsetM(1400, 28.91) - 570)).toBeLessThan(0.05);
  });

  it("refuses a radius of nothing", () => {
    expect(() => horizontalSightlineOffsetM(0, 100)).toThrow(RangeError);
    expect(() => sightPastOffsetM(100, -1)).toThrow(RangeError);
  });
});
