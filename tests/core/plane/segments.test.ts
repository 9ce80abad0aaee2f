import { describe, expect, it } from "vitest";
import { bearingDeg, turnDeg } from "../../../src/core/plane/bearing.ts";
import { isInRing, isInRings, squaredToLine } from "../../../src/core/plane/rings.ts";
import { crossingShare, nearestShare, rayToSegment, squaredToSegment } from "../../../src/core/plane/segments.ts";

describe("segments", () => {
  it("measures to the inside of a segment, to its ends and to a point-like one", () => {
    expect(squaredToSegment(1, 3, 0, 0, 10, 0)).toBe(9);
    expect(squaredToSegment(13, 4, 0, 0, 10, 0)).toBe(25);
    expect(squaredToSegment(3, 4, 0, 0, 0, 0)).toBe(25);
    expect(nearestShare(2.5, 9, 0, 0, 10, 0)).toBe(0.25);
  });

  it("finds where two segments cross", () => {
    expect(crossingShare(0, 0, 10, 0, 4, -1, 4, 1)).toBe(0.4);
    expect(crossingShare(0, 0, 10, 0, 4, 1, 4, 2)).toBeNaN();
    expect(crossingShare(0, 0, 10, 0, 0, 1, 10, 1)).toBeNaN();
  });

  it("follows a ray to a segment ahead only", () => {
    expect(rayToSegment(0, 0, 1, 0, 5, -1, 5, 1)).toBe(5);
    expect(rayToSegment(0, 0, -1, 0, 5, -1, 5, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(rayToSegment(0, 0, 1, 0, 5, 1, 5, 2)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("rings", () => {
  const square = Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10, 0, 0, 4, 4, 6, 4, 6, 6, 4, 6, 4, 4);

  it("tells inside from outside and leaves holes out", () => {
    const parts = { xy: square, starts: Uint32Array.of(0, 5, 10) };
    expect(isInRing(square, 0, 5, 5, 5)).toBe(true);
    expect(isInRing(square, 0, 5, 11, 5)).toBe(false);
    expect(isInRings(parts, 0, 2, 5, 5)).toBe(false);
    expect(isInRings(parts, 0, 2, 2, 5)).toBe(true);
  });

  it("measures to a line and to a lone vertex", () => {
    expect(squaredToLine(square, 0, 5, 5, 13)).toBe(9);
    expect(squaredToLine(square, 1, 2, 13, 4)).toBe(25);
  });
});

describe("bearings", () => {
  it("count clockwise from north", () => {
    expect([bearingDeg(0, 1), bearingDeg(1, 0), bearingDeg(0, -1), bearingDeg(-1, 0)]).toEqual([0, 90, 180, 270]);
    expect([turnDeg(350, 10), turnDeg(10, 350), turnDeg(0, 180)]).toEqual([20, -20, 180]);
  });
});
