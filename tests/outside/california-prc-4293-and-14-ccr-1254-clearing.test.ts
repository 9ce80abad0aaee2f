// Source: California Public Resources Code 4293 and California Code of Regulations, title 14, section 1254, both read: 4 ft from 2.4 to 72 kV at
// any position of the wire in air up to 120 F; trees that may fall on the line; pole firebreak of 10 ft from the pole's outside, all
// vegetation up to 8 ft, dead and dying wood up to the attachment. The cases are arithmetic on them.
import { describe, expect, it, test } from "vitest";
import { pointToWire } from "../../src/core/crown/wire/gap-to-wire.ts";
import { emptyWireGap } from "../../src/core/crown/wire/nearest-on-wire.ts";
import { mustClearLimb, type Pole } from "../../src/core/crown/wire/pole-cylinder.ts";
import { canStrike, strikeReachM } from "../../src/core/crown/wire/strike-reach.ts";
import { stillWire } from "../../src/core/crown/wire/swept-wire.ts";
import { feetFromMeters, metersFromFeet } from "../../src/core/units/length.ts";

describe("PRC 4293: 12 kV, a tree 4.2 ft under the wire at 60 F that sags 0.4 ft lower at 120 F", () => {
  const gapFt = (sagFt: number): number => {
    const at = metersFromFeet(30);
    const gap = emptyWireGap();
    const wire = stillWire(0, 0, at, metersFromFeet(150), 0, at, metersFromFeet(sagFt));
    // Under mid-span: 30 ft of attachment less 2 ft of sag less 4.2 ft.
    pointToWire(gap, wire, metersFromFeet(75), 0, metersFromFeet(30 - 2 - 4.2));
    return feetFromMeters(gap.gapM);
  };
  // The search stops at half a millimeter along the wire; under its lowest point that is nothing in height.
  it("holds 4 ft at 60 F", () => expect(gapFt(2)).toBeCloseTo(4.2, 4));
  it("does not at 120 F", () => expect(gapFt(2.4)).toBeCloseTo(3.8, 4));
});

describe("14 CCR 1254: a pole with a fuse, attachment at 9 m", () => {
  const pole: Pole = { xM: 0, yM: 0, radiusM: 0.15, attachmentM: 9 };
  it("removes a limb whose tip is 2.8 m from the pole's surface at 2.0 m", () =>
    expect(mustClearLimb(pole, 2.95, 0, 2.0, true)).toBe(true));
  it("leaves a living, sound limb at 5 m", () => expect(mustClearLimb(pole, 2.95, 0, 5, true)).toBe(false));
  it("removes a dead limb at 5 m, and none above the attachment", () => {
    expect(mustClearLimb(pole, 2.95, 0, 5, false)).toBe(true);
    expect(mustClearLimb(pole, 2.95, 0, 9.1, false)).toBe(false);
  });
  it("ends 10 ft from the pole's surface", () => {
    expect(mustClearLimb(pole, 0.15 + 3.047, 0, 2, true)).toBe(true);
    expect(mustClearLimb(pole, 0.15 + 3.049, 0, 2, true)).toBe(false);
  });
});

describe("PRC 4293: trees that may fall on the line (geometry)", () => {
  test.each([
    [15, 10, 11.18],
    [20, 10, 17.321],
    [25, 10, 22.913],
    [30, 12, 27.495],
    [10, 12, 0],
    [18, 18, 0],
  ])("a tree of %i m under a wire %i m above its foot reaches %d m", (heightM, aboveM, reachM) => {
    // Stated to a millimeter.
    expect(Math.abs(strikeReachM(heightM, aboveM) - reachM)).toBeLessThan(0.0006);
  });
  it("20 m high, wire 10 m up: hits at 17.0 m, misses at 17.4 m", () => {
    expect(canStrike(20, 17, 10)).toBe(true);
    expect(canStrike(20, 17.4, 10)).toBe(false);
  });
});
