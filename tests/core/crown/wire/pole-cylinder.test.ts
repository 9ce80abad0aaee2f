import { describe, expect, it } from "vitest";
import { type Crown, roundCrown } from "../../../../src/core/crown/crown.ts";
import {
  crownInPoleM,
  POLE_ALL_BELOW_M,
  POLE_CLEAR_M,
  type Pole,
  poleZone,
} from "../../../../src/core/crown/wire/pole-cylinder.ts";
import { canStrike, strikeReachM } from "../../../../src/core/crown/wire/strike-reach.ts";

const pole: Pole = { xM: 0, yM: 0, radiusM: 0.2, attachmentM: 9 };

describe("the cylinder of 10 ft about a pole of 0.2 m", () => {
  it("is 3.248 m wide, its lower part 2.4384 m high", () => {
    expect(POLE_CLEAR_M + pole.radiusM).toBeCloseTo(3.248, 12);
    expect(POLE_ALL_BELOW_M).toBeCloseTo(2.4384, 12);
    expect(poleZone(pole, 3.24, 0, 2.43)).toBe("all");
    expect(poleZone(pole, 3.24, 0, 2.45)).toBe("dead");
    expect(poleZone(pole, 3.24, 0, 9.01)).toBeNull();
    expect(poleZone(pole, 3.26, 0, 1)).toBeNull();
  });

  it("ends at an attachment lower than 8 ft", () => {
    expect(poleZone({ ...pole, attachmentM: 2 }, 1, 0, 2.2)).toBeNull();
  });
});

describe("a crown beside it", () => {
  const column = roundCrown(8, 1, 2, "column");
  it("reaches in by the overlap in plan", () => {
    // 3.248 - (5 - 2) = 0.248 m.
    expect(crownInPoleM(pole, "all", column, 5, 0)).toBeCloseTo(0.248, 3);
    expect(crownInPoleM(pole, "dead", column, 5, 0)).toBeCloseTo(0.248, 3);
    expect(crownInPoleM(pole, "all", column, 6, 0)).toBeCloseTo(-0.752, 3);
    expect(crownInPoleM(pole, "all", column, 1, 0)).toBeCloseTo(3.248, 12);
  });

  it("counts only at the heights of the part", () => {
    expect(crownInPoleM(pole, "all", roundCrown(8, 3, 2, "column"), 5, 0)).toBe(Number.NEGATIVE_INFINITY);
    expect(crownInPoleM(pole, "all", roundCrown(8, 3, 2, "column"), 5, 0, -1)).toBeCloseTo(0.248, 3);
    // A top at 2.2 m is 3.2 m above the pole's foot where the trunk stands a meter higher; one below that foot is still to be cleared.
    expect(crownInPoleM(pole, "dead", roundCrown(2.2, 1, 2, "column"), 5, 0)).toBe(Number.NEGATIVE_INFINITY);
    expect(crownInPoleM(pole, "dead", roundCrown(2.2, 1, 2, "column"), 5, 0, 1)).toBeCloseTo(0.248, 3);
    expect(crownInPoleM(pole, "all", roundCrown(2.2, 1, 2, "column"), 5, 0, -3)).toBeCloseTo(0.248, 3);
    // A cone of 4 m between 0 and 8 m is 4 x (1 - 2.4384 / 8) = 2.7808 m wide where the upper part begins: 3.248 - (5 - 2.7808).
    expect(crownInPoleM(pole, "dead", roundCrown(8, 0, 4, "cone"), 5, 0)).toBeCloseTo(1.0288, 3);
  });

  it("is measured to its outline, not toward its trunk", () => {
    const wide: Crown = { ...column, radii: { northM: 4, eastM: 1, southM: 4, westM: 1 } };
    // By brute force over the ellipse.
    let least = Number.POSITIVE_INFINITY;
    for (let step = 0; step < 100_000; step += 1) {
      const angle = (2 * Math.PI * step) / 100_000;
      least = Math.min(least, Math.hypot(4 + Math.cos(angle), 3 + 4 * Math.sin(angle)));
    }
    expect(crownInPoleM(pole, "all", wide, 4, 3)).toBeCloseTo(3.248 - least, 2);
  });
});

describe("a tree that falls", () => {
  it("reaches the side of a right triangle: 5 m tall, wire 3 m up, 4 m", () => {
    expect(strikeReachM(5, 3)).toBe(4);
    expect(canStrike(5, 4, 3)).toBe(true);
    expect(canStrike(5, 4.01, 3)).toBe(false);
    expect(strikeReachM(2, 3)).toBe(0);
    expect(() => strikeReachM(-1, 0)).toThrow(RangeError);
  });
});
