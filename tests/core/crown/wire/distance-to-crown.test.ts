import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Crown, radiusTowardM, roundCrown } from "../../../../src/core/crown/crown.ts";
import { profileShare } from "../../../../src/core/crown/profile.ts";
import { distanceToCrownM } from "../../../../src/core/crown/wire/distance-to-crown.ts";
import { HABITS } from "../../../../src/core/model/terms.ts";

describe("a sphere of 3 m about 5 m", () => {
  const sphere = roundCrown(8, 2, 3, "ellipsoid");
  it.each([
    [0, 0, 10, 2],
    [7, 0, 5, 4],
    [3, 4, 5, 2],
    [2, 2, 4, 0],
    [0, 0, 5, -3],
    [4, 0, 8, 2],
  ])("is from (%d, %d, %d) as far as the distance to its center less 3", (x, y, z, distanceM) => {
    // Inside, the depth is measured to chords at most 0.03 % of the radius within; outside the search ends at a millionth.
    expect(Math.abs(distanceToCrownM(sphere, x, y, z) - distanceM)).toBeLessThan(0.001);
  });
});

describe("a column of 2 m between 3 and 9 m", () => {
  const column = roundCrown(9, 3, 2, "column");
  it("has a flat base and top and an edge", () => {
    expect(distanceToCrownM(column, 1, 0, 1)).toBeCloseTo(2, 9);
    expect(distanceToCrownM(column, 1, 0, 11)).toBeCloseTo(2, 9);
    expect(distanceToCrownM(column, 5, 0, 13)).toBeCloseTo(5, 6);
    expect(distanceToCrownM(column, 1.5, 0, 6)).toBeCloseTo(-0.5, 9);
  });
});

/** Bearings of the samples; just inside each quadrant's edges, where a quadrant beside an empty one has a wall. */
const BEARINGS = [0, 90, 180, 270].flatMap((first) =>
  Array.from({ length: 91 }, (_, step) => first + Math.min(90 - 1e-6, Math.max(1e-6, step))),
);
const DIRECTIONS = BEARINGS.map((deg) => [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)] as const);

/** Least distance from a point to the crown's surface by brute force: rings at many heights, many bearings; flat ends and walls filled. */
function bruteForceM(crown: Crown, x: number, y: number, z: number): number {
  let least = Number.POSITIVE_INFINITY;
  const radii = BEARINGS.map((bearing) => radiusTowardM(crown.radii, bearing));
  const hasWalls = Object.values(crown.radii).includes(0);
  for (let ring = 0; ring <= 300; ring += 1) {
    // Dense at base and top, where profiles turn fastest.
    const u = (1 - Math.cos((Math.PI * ring) / 300)) / 2;
    const height = crown.crownBaseM + u * (crown.heightM - crown.crownBaseM);
    const share = profileShare(crown.habit, Math.min(1, u));
    for (const [turn, [east, north]] of DIRECTIONS.entries()) {
      const isFilled = ring === 0 || ring === 300 || (hasWalls && (turn % 91) % 90 === 0);
      const inner = isFilled ? 40 : 1;
      for (let part = isFilled ? 0 : 1; part <= inner; part += 1) {
        const rho = (radii[turn]! * share * part) / inner;
        least = Math.min(least, (x - rho * east) ** 2 + (y - rho * north) ** 2 + (z - height) ** 2);
      }
    }
  }
  return Math.sqrt(least);
}

describe("against brute force over the surface", () => {
  const radius = fc.double({ min: 0.5, max: 6, noNaN: true });
  const crown = fc
    .record({
      heightM: fc.double({ min: 5, max: 14, noNaN: true }),
      base: fc.double({ min: 0, max: 0.7, noNaN: true }),
      northM: radius,
      eastM: radius,
      southM: fc.oneof({ weight: 4, arbitrary: radius }, { weight: 1, arbitrary: fc.constant(0) }),
      westM: radius,
      habit: fc.constantFrom(...HABITS),
    })
    .map(
      ({ heightM, base, northM, eastM, southM, westM, habit }): Crown => ({
        heightM,
        crownBaseM: base * heightM,
        radii: { northM, eastM, southM, westM },
        habit,
      }),
    );
  const far = fc.double({ min: -10, max: 10, noNaN: true });

  it("outside it is the distance in space, to 2 cm of samples", () => {
    fc.assert(
      fc.property(crown, far, far, fc.double({ min: -1, max: 18, noNaN: true }), (one, x, y, z) => {
        const found = distanceToCrownM(one, x, y, z);
        if (found < 0) {
          const bearing = (Math.atan2(x, y) * 180) / Math.PI;
          expect(Math.hypot(x, y)).toBeLessThanOrEqual(radiusTowardM(one.radii, bearing));
          return;
        }
        const brute = bruteForceM(one, x, y, z);
        // Samples lie on the surface, so they are never nearer; a mesh of 15 cm on 6 m is off by less than 2 cm beyond 0.5 m.
        expect(found).toBeLessThanOrEqual(brute + 1e-6);
        expect(brute - found).toBeLessThan(found > 0.5 ? 0.02 : 0.15);
      }),
      { seed: 1, numRuns: 150 },
    );
  });

  it("changes by no more than the way between two points outside", () => {
    fc.assert(
      fc.property(crown, far, far, far, far, (one, x, y, x2, y2) => {
        const first = distanceToCrownM(one, x, y, 6);
        const second = distanceToCrownM(one, x2, y2, 6.5);
        fc.pre(first >= 0 && second >= 0);
        expect(Math.abs(first - second)).toBeLessThanOrEqual(Math.hypot(x - x2, y - y2, 0.5) + 1e-6);
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});
