import { describe, expect, it } from "vitest";
import { roundCrown } from "../../../../src/core/crown/crown.ts";
import { distanceToCrownM } from "../../../../src/core/crown/wire/distance-to-crown.ts";
import { nearestCrownPoint } from "../../../../src/core/crown/wire/nearest-crown-point.ts";
import { HABITS } from "../../../../src/core/model/terms.ts";
import { randomFrom } from "../../../fuzz/random.ts";

describe("the point of a crown nearest to a place", () => {
  it("lies on the line to a ball's center", () => {
    // A ball of 5 m about (0, 0, 10); the place is 10 m off along (0.6, 0, 0.8).
    const found = nearestCrownPoint(roundCrown(15, 5, 5, "ellipsoid"), 6, 0, 18);
    expect([found.xM, found.yM, found.zM].map((value) => value.toFixed(3))).toEqual(["3.000", "0.000", "14.000"]);
  });

  it("is on the surface and as far away as the distance says", () => {
    const random = randomFrom(11);
    const between = (low: number, high: number): number => low + ((high - low) * random(2 ** 30)) / 2 ** 30;
    for (let run = 0; run < 300; run += 1) {
      const crown = roundCrown(14, between(1, 6), between(2, 6), random.pick(HABITS));
      const [x, y, z] = [between(-12, 12), between(-12, 12), between(3, 20)];
      const gapM = distanceToCrownM(crown, x, y, z);
      if (gapM < 0.05) continue;
      const found = nearestCrownPoint(crown, x, y, z);
      expect(Math.hypot(found.xM - x, found.yM - y, found.zM - z)).toBeCloseTo(gapM, 6);
      // The slopes are good to a thousandth; over 12 m that is a centimeter.
      expect(Math.abs(distanceToCrownM(crown, found.xM, found.yM, found.zM))).toBeLessThan(0.02);
    }
  });
});
