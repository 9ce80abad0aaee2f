import { describe, expect, it } from "vitest";
import { centralMeridianDeg, planeOf, planesAcross, toPlane } from "../../../src/core/plane/plane.ts";

describe("planeOf", () => {
  it("numbers strips by longitude alone and closes at the antimeridian", () => {
    expect([0, 0.124, 0.126, -0.126, 179.9, 180, -180, -179.8].map(planeOf)).toEqual([
      0, 0, 1, 1439, 720, 720, 720, 721,
    ]);
    expect(centralMeridianDeg(720)).toBe(180);
    expect(centralMeridianDeg(721)).toBe(-179.75);
  });
});

describe("planesAcross", () => {
  it("adds the neighbor only within the halo of the common edge", () => {
    // The edge between strips 0 and 1 is at 0.125; at the equator 1 km is 0.00898 degrees.
    expect(planesAcross(0, 0.115, 0)).toEqual([0]);
    expect(planesAcross(0, 0.117, 0)).toEqual([0, 1]);
    expect(planesAcross(0.13, 0.2, 0)).toEqual([0, 1]);
  });

  it("goes on over the antimeridian", () => {
    expect(planesAcross(179.9, 180.2, 0)).toEqual([720, 721]);
  });
});

describe("toPlane", () => {
  it("takes the short way over the antimeridian", () => {
    const [west] = toPlane(720, 179.999, 0);
    const [east] = toPlane(720, -179.999, 0);
    // 0.001 degrees of the equator are 6378137 * pi / 180000 = 111.319 m.
    expect(west).toBeCloseTo(-111.319, 3);
    expect(east).toBeCloseTo(111.319, 3);
  });

  it("stays finite on the far side of the globe and at the poles", () => {
    for (const [lonDeg, latDeg] of [
      [180, 0],
      [90, 0],
      [0, 90],
      [123, -90],
    ] as const) {
      expect(toPlane(0, lonDeg, latDeg).every(Number.isFinite)).toBe(true);
    }
  });
});
