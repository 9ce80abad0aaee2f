import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Crown, radiusAtHeightM, roundCrown } from "../../../src/core/crown/crown.ts";
import { type Dose, doseShare, unionDose } from "../../../src/core/crown/dose.ts";
import { profileShare } from "../../../src/core/crown/profile.ts";
import { RAY_COUNT, RAY_STEP_DEG, type RemovalRegion } from "../../../src/core/model/conflict.ts";
import { HABITS, type Habit } from "../../../src/core/model/terms.ts";

const ring = (lowM: number, highM: number, fromM = 0, toM = Number.POSITIVE_INFINITY): RemovalRegion => ({
  fromM: new Float64Array(RAY_COUNT).fill(fromM),
  toM: new Float64Array(RAY_COUNT).fill(toM),
  lowM,
  highM,
});

/** All that lies beyond a straight edge at a distance from the trunk toward a bearing. */
function beyondEdge(distanceM: number, bearingDeg: number, lowM: number, highM: number): RemovalRegion {
  const fromM = new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY);
  for (let ray = 0; ray < RAY_COUNT; ray += 1) {
    const toward = Math.cos((((ray + 0.5) * RAY_STEP_DEG - bearingDeg) * Math.PI) / 180);
    if (toward > 1e-9) fromM[ray] = distanceM / toward;
  }
  return { fromM, toM: new Float64Array(RAY_COUNT).fill(Number.POSITIVE_INFINITY), lowM, highM };
}

describe("a crown raised all round", () => {
  // Geometry, derivable by hand: the integral of f^2 from 0 to t over the integral from 0 to 1.
  const closedForm: Record<Habit, (t: number) => number> = {
    ellipsoid: (t) => t * t * (3 - 2 * t),
    cone: (t) => 1 - (1 - t) ** 3,
    paraboloid: (t) => 1 - (1 - t) ** 2,
    column: (t) => t,
    vase: (t) => t * t,
    dome: (t) => (3 * t - t ** 3) / 2,
  };

  it("takes the published quarter-depth shares", () => {
    const quarter = (habit: Habit) => unionDose(roundCrown(12, 2, 4, habit), [ring(0, 4.5)]).volumeShare;
    // t = 0.25: 3/16 - 2/64 = 0.15625; 1 - 0.75^3 = 0.578125; 1 - 0.75^2 = 0.4375; 0.25.
    expect(quarter("ellipsoid")).toBeCloseTo(0.15625, 12);
    expect(quarter("cone")).toBeCloseTo(0.578125, 12);
    expect(quarter("paraboloid")).toBeCloseTo(0.4375, 12);
    expect(quarter("column")).toBeCloseTo(0.25, 12);
  });

  it.each(HABITS)("is exact for a %s at every depth, in both models and with any four radii", (habit) => {
    const crown: Crown = {
      heightM: 11,
      crownBaseM: 1,
      radii: { northM: 2, eastM: 6, southM: 3.5, westM: 1.2 },
      habit,
    };
    for (const t of [0.05, 0.1, 0.25, 0.5, 0.73, 0.9, 1]) {
      const dose = unionDose(crown, [ring(0, 1 + 10 * t)]);
      // Closed form against closed form: only rounding remains.
      expect(dose.volumeShare).toBeCloseTo(closedForm[habit](t), 10);
      expect(dose.leafShare).toBeCloseTo(closedForm[habit](t), 10);
    }
  });
});

describe("parts of a crown", () => {
  it("counts leaf by the fourth power of the distance in a column", () => {
    // Beyond half the radius all round: volume 1 - 1/4, leaf 1 - 1/16.
    const dose = unionDose(roundCrown(10, 0, 4, "column"), [ring(0, 10, 2)]);
    expect(dose.volumeShare).toBeCloseTo(0.75, 12);
    expect(dose.leafShare).toBeCloseTo(0.9375, 12);
  });

  it("takes the cap of a sphere beyond a plane", () => {
    // Sphere of radius 5 cut by an upright plane at 3: cap of height 2, pi h^2 (3R - h) / 3 over 4/3 pi R^3
    // = 4 * 13 / 500 = 0.104. Where the plane leaves the crown, rays are taken in eight parts: under 0.1 % of the crown.
    const crown = roundCrown(12, 2, 5, "ellipsoid");
    for (const bearingDeg of [0, 37, 180, 301]) {
      expect(unionDose(crown, [beyondEdge(3, bearingDeg, 0, 20)]).volumeShare).toBeCloseTo(0.104, 3);
    }
  });

  it("takes half of a crown on one side of its axis", () => {
    for (const habit of HABITS) {
      const dose = unionDose(roundCrown(9, 1, 3, habit), [beyondEdge(0, 90, 0, 9)]);
      expect(dose.volumeShare).toBeCloseTo(0.5, 10);
      expect(dose.leafShare).toBeCloseTo(0.5, 10);
    }
  });

  it("has nothing to take from a crown without depth or width, or outside it", () => {
    expect(unionDose(roundCrown(5, 5, 3, "cone"), [ring(0, 9)]).volumeShare).toBe(0);
    expect(unionDose(roundCrown(5, 1, 0, "cone"), [ring(0, 9)]).volumeShare).toBe(0);
    expect(unionDose(roundCrown(5, 1, 2, "cone"), [ring(6, 9), ring(0, 5, 2)]).volumeShare).toBe(0);
    expect(unionDose(roundCrown(5, 1, 2, "cone"), []).volumeShare).toBe(0);
  });

  it("keeps its digits next to the trunk", () => {
    for (const habit of HABITS) {
      const dose = unionDose(roundCrown(9, 1, 3, habit), [ring(0, 9, 1e-9)]);
      expect(dose.volumeShare).toBeCloseTo(1, 9);
      expect(dose.leafShare).toBeCloseTo(1, 9);
    }
  });
});

describe("a cut on one side", () => {
  /**
   * The same share by other means: at each height the part of a circle beyond a chord, by its closed form for area and for the integral of
   * the squared distance (polar, by hand: r^4 a / 2 - d^4 (tan a + tan^3 a / 3) / 2 with a = acos(d / r)), summed over 20,000 heights.
   */
  function beyondChord(habit: Habit, radiusM: number, distanceM: number, toShare: number): Dose {
    let volume = 0;
    let leaf = 0;
    let whole = 0;
    for (let at = 0; at < 20_000; at += 1) {
      const u = (at + 0.5) / 20_000;
      const r = radiusM * profileShare(habit, u);
      whole += Math.PI * r * r;
      if (u > toShare || r <= distanceM) continue;
      const a = Math.acos(distanceM / r);
      volume += r * r * (a - Math.sin(a) * Math.cos(a));
      leaf += (r ** 4 * a - distanceM ** 4 * (Math.tan(a) + Math.tan(a) ** 3 / 3)) / (r * r);
    }
    return { volumeShare: volume / whole, leafShare: leaf / whole };
  }

  it.each(HABITS)("is within 0.1 percent of a %s from the closed form, wherever the edge runs", (habit) => {
    // The edge's bearing against the rays matters: on a ray's middle, between two, and in between.
    for (const bearingDeg of [0, 0.7, 1.5, 2.2, 37.3]) {
      for (const share of [0.01, 0.03, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95]) {
        for (const toShare of [0.3, 1]) {
          const dose = unionDose(roundCrown(10, 0, 5, habit), [beyondEdge(5 * share, bearingDeg, 0, 10 * toShare)]);
          const exact = beyondChord(habit, 5, 5 * share, toShare);
          expect(Math.abs(dose.volumeShare - exact.volumeShare)).toBeLessThan(0.001);
          expect(Math.abs(dose.leafShare - exact.leafShare)).toBeLessThan(0.001);
        }
      }
    }
  });
});

describe("against random points", () => {
  /** A straight edge, as the formula of a line and as the rays that the dose is given. */
  interface Half {
    readonly distanceM: number;
    readonly bearingDeg: number;
    readonly lowM: number;
    readonly highM: number;
  }

  it("agrees on 1,000 crowns with up to four overlapping straight cuts, each within four standard errors", () => {
    // N = 10,000 points in each crown's box. Of n that fall inside, a share p has the standard error sqrt(p (1 - p) / n); four are allowed,
    // and the 0.1 % that the quadrature claims. The seed is fixed, so the outcome never changes.
    const next = randomFrom(20260101);
    const between = (low: number, high: number) => low + (high - low) * next();
    let tested = 0;
    for (let scene = 0; scene < 1000; scene += 1) {
      const habit = HABITS[scene % HABITS.length]!;
      const radii = { northM: between(1, 6), eastM: between(1, 6), southM: between(1, 6), westM: between(1, 6) };
      const crown: Crown = { heightM: between(6, 18), crownBaseM: between(0, 4), radii, habit };
      const cuts: Half[] = Array.from({ length: 1 + (scene % 4) }, () => {
        const lowM = between(0, 8);
        return { distanceM: between(0.3, 5), bearingDeg: between(0, 360), lowM, highM: lowM + between(0.5, 10) };
      });
      const sides = cuts.map(({ bearingDeg }) => [
        Math.sin((bearingDeg * Math.PI) / 180),
        Math.cos((bearingDeg * Math.PI) / 180),
      ]);
      let inside = 0;
      let volume = 0;
      let leafAll = 0;
      let leaf = 0;
      let leafSquares = 0;
      for (let count = 0; count < 10_000; count += 1) {
        const eastM = between(-radii.westM, radii.eastM);
        const northM = between(-radii.southM, radii.northM);
        const heightM = between(crown.crownBaseM, crown.heightM);
        const bearingDeg = ((Math.atan2(eastM, northM) * 180) / Math.PI + 360) % 360;
        const radiusM = radiusAtHeightM(crown, heightM, bearingDeg);
        const distanceM = Math.hypot(eastM, northM);
        if (!(distanceM < radiusM)) continue;
        const isTaken = cuts.some(
          ({ distanceM: edgeM, lowM, highM }, at) =>
            heightM > lowM && heightM < highM && eastM * sides[at]![0]! + northM * sides[at]![1]! > edgeM,
        );
        // Twice the relative radius squared: the density that carries leaf in proportion to each section.
        const weight = 2 * (distanceM / radiusM) ** 2;
        inside += 1;
        leafAll += weight;
        if (!isTaken) continue;
        volume += 1;
        leaf += weight;
        leafSquares += weight * weight;
      }
      const dose = unionDose(
        crown,
        cuts.map((cut) => beyondEdge(cut.distanceM, cut.bearingDeg, cut.lowM, cut.highM)),
      );
      const share = volume / inside;
      // With no point taken the standard error would be 0: one point in n is allowed for.
      const error = Math.max(Math.sqrt((share * (1 - share)) / inside), 1 / inside);
      expect(Math.abs(dose.volumeShare - share)).toBeLessThan(4 * error + 0.001);
      // The weighted share's error is at most that of its own sum.
      const leafError = Math.max(Math.sqrt(leafSquares) / leafAll, 2 / inside);
      expect(Math.abs(dose.leafShare - leaf / leafAll)).toBeLessThan(4 * leafError + 0.001);
      if (share > 0.01) tested += 1;
    }
    // The cuts must be such that there is something to check.
    expect(tested).toBeGreaterThan(500);
  });
});

describe("the union", () => {
  const region = fc.record({
    distanceM: fc.double({ min: 0, max: 6, noNaN: true }),
    bearingDeg: fc.double({ min: 0, max: 360, noNaN: true }),
    lowM: fc.double({ min: 0, max: 8, noNaN: true }),
    depthM: fc.double({ min: 0.1, max: 8, noNaN: true }),
  });
  const scene = fc.record({
    heightM: fc.double({ min: 3, max: 20, noNaN: true }),
    baseShare: fc.double({ min: 0, max: 0.8, noNaN: true }),
    radii: fc.array(fc.double({ min: 0.5, max: 8, noNaN: true }), { minLength: 4, maxLength: 4 }),
    habit: fc.constantFrom(...HABITS),
    regions: fc.array(region, { minLength: 1, maxLength: 4 }),
  });
  const build = (given: typeof scene extends fc.Arbitrary<infer T> ? T : never) => {
    const [northM, eastM, southM, westM] = given.radii as [number, number, number, number];
    return {
      crown: {
        heightM: given.heightM,
        crownBaseM: given.heightM * given.baseShare,
        radii: { northM, eastM, southM, westM },
        habit: given.habit,
      } satisfies Crown,
      regions: given.regions.map((one) => beyondEdge(one.distanceM, one.bearingDeg, one.lowM, one.lowM + one.depthM)),
    };
  };
  // Sums of up to 500 terms of order 1: rounding stays far below this.
  const rounding = 1e-9;
  const each = (check: (dose: Dose, parts: Dose[], crown: Crown, regions: RemovalRegion[]) => void) =>
    fc.assert(
      fc.property(scene, (given) => {
        const { crown, regions } = build(given);
        const parts = regions.map((one) => unionDose(crown, [one]));
        check(unionDose(crown, regions), parts, crown, regions);
      }),
      { seed: 1, numRuns: 300 },
    );

  it("is no more than its parts together and no less than the largest of them", () => {
    each((dose, parts) => {
      for (const share of ["volumeShare", "leafShare"] as const) {
        const sum = parts.reduce((total, part) => total + part[share], 0);
        const largest = parts.reduce((most, part) => Math.max(most, part[share]), 0);
        expect(dose[share]).toBeLessThanOrEqual(sum + rounding);
        expect(dose[share]).toBeGreaterThanOrEqual(largest - rounding);
        expect(dose[share]).toBeLessThanOrEqual(1);
      }
    });
  });

  it("does not care for the order of the regions, nor for one given twice", () => {
    each((dose, _parts, crown, regions) => {
      const reversed = unionDose(crown, [...regions].reverse());
      const doubled = unionDose(crown, [...regions, regions[0]!]);
      expect(Math.abs(reversed.volumeShare - dose.volumeShare)).toBeLessThan(rounding);
      expect(Math.abs(doubled.leafShare - dose.leafShare)).toBeLessThan(rounding);
    });
  });

  it("grows with the height and the depth of a region", () => {
    each((dose, _parts, crown, regions) => {
      const [first, ...others] = regions as [RemovalRegion, ...RemovalRegion[]];
      const higher = unionDose(crown, [{ ...first, highM: first.highM + 0.7 }, ...others]);
      const deeper = unionDose(crown, [{ ...first, fromM: first.fromM.map((fromM) => fromM * 0.8) }, ...others]);
      expect(doseShare(higher)).toBeGreaterThanOrEqual(doseShare(dose) - rounding);
      expect(doseShare(deeper)).toBeGreaterThanOrEqual(doseShare(dose) - rounding);
    });
  });
});

it("divides a profile's squared share into the same sum by midpoints", () => {
  // The oracle behind the closed forms: 2,000 midpoints of f^2, error under 1e-6 for these smooth squares.
  for (const habit of HABITS) {
    let below = 0;
    let all = 0;
    for (let at = 0; at < 2000; at += 1) {
      const u = (at + 0.5) / 2000;
      all += profileShare(habit, u) ** 2;
      if (u < 0.4) below += profileShare(habit, u) ** 2;
    }
    expect(unionDose(roundCrown(10, 0, 3, habit), [ring(0, 4)]).volumeShare).toBeCloseTo(below / all, 6);
  }
});

/** The minimal standard generator (Park and Miller 1988): the same numbers on every machine. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
