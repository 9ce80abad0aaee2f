import { describe, expect, it } from "vitest";
import { type Crown, roundCrown } from "../../../../src/core/crown/crown.ts";
import { catenaryParameterM } from "../../../../src/core/crown/wire/catenary-sag.ts";
import { distanceToCrownM } from "../../../../src/core/crown/wire/distance-to-crown.ts";
import { gapToWire, pointToWire } from "../../../../src/core/crown/wire/gap-to-wire.ts";
import { emptyWireGap } from "../../../../src/core/crown/wire/nearest-on-wire.ts";
import { type SweptWire, stillWire, wirePointInto } from "../../../../src/core/crown/wire/swept-wire.ts";
import { HABITS } from "../../../../src/core/model/terms.ts";
import { randomFrom } from "../../../fuzz/random.ts";

describe("a wire at rest over a sphere", () => {
  it("is as far as its lowest point is above it, less the radius", () => {
    const gap = emptyWireGap();
    gapToWire(gap, roundCrown(8, 2, 3, "ellipsoid"), stillWire(-20, 0, 11, 20, 0, 11, 1), 0, 0, 0, 20);
    // 11 - 1 = 10 m against a top at 8 m; 1 mm is where the search stops.
    expect(Math.abs(gap.gapM - 2)).toBeLessThan(0.001);
    expect(Math.abs(gap.zM - 10)).toBeLessThan(0.001);
  });

  it("counts the height of the trunk's foot", () => {
    const gap = emptyWireGap();
    gapToWire(gap, roundCrown(8, 2, 3, "ellipsoid"), stillWire(-20, 0, 111, 20, 0, 111, 1), 0, 0, 100, 20);
    expect(Math.abs(gap.gapM - 2)).toBeLessThan(0.001);
  });

  it("is out of reach when it is", () => {
    const gap = emptyWireGap();
    gapToWire(gap, roundCrown(8, 2, 3, "ellipsoid"), stillWire(-20, 9, 9, 20, 9, 9, 1), 0, 0, 0, 8);
    expect(gap.gapM).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("a wire that swings", () => {
  // Sag of 3 m swung by 90 degrees lies level with its ends, 3 m to either side.
  const swung: SweptWire = { ...stillWire(0, 0, 10, 40, 0, 10, 3), swingRad: Math.PI / 2 };
  const distance = (x: number, y: number, z: number): number => {
    const gap = emptyWireGap();
    pointToWire(gap, swung, x, y, z);
    return gap.gapM;
  };
  it("comes to either side", () => {
    expect(Math.abs(distance(20, 5, 10) - 2)).toBeLessThan(0.001);
    expect(Math.abs(distance(20, -5, 10) - 2)).toBeLessThan(0.001);
    expect(Math.abs(distance(20, 0, 6) - 1)).toBeLessThan(0.001);
  });
  it("passes between", () => expect(distance(20, 3 * Math.SQRT1_2, 10 - 3 * Math.SQRT1_2)).toBeLessThan(0.001));
  it("is in reach when its blow-out is", () => {
    const gap = emptyWireGap();
    gapToWire(gap, roundCrown(12, 8, 2, "ellipsoid"), swung, 20, 8, 0, 5.1);
    // Swung level it is 3 m aside at 10 m, where the crown begins at 8 - 2.
    expect(Math.abs(gap.gapM - 3)).toBeLessThan(0.01);
    gapToWire(gap, roundCrown(12, 8, 2, "ellipsoid"), swung, 20, 8, 0, 4.9);
    expect(gap.gapM).toBe(Number.POSITIVE_INFINITY);
  });
  it("swings with its strings about their upper ends", () => {
    const gap = emptyWireGap();
    pointToWire(gap, { ...swung, stringM: 1 }, 20, 6, 11);
    // Arms of 1 + 3 m about a line at 11 m.
    expect(Math.abs(gap.gapM - 2)).toBeLessThan(0.001);
  });
});

/** Greatest speed of a wire's point with its share and with its angle, meters; from the formulas of the drop. */
const speeds = (wire: SweptWire): readonly [number, number] => {
  const sagM = Math.max(wire.stillSagM, wire.swungSagM);
  return [
    Math.hypot(wire.bx - wire.ax, wire.by - wire.ay, wire.bz - wire.az) + 5 * sagM,
    wire.stringM + sagM + (wire.swingRad > 0 ? Math.abs(wire.swungSagM - wire.stillSagM) / wire.swingRad : 0),
  ];
};

/**
 * Least gap over all of a wire, if less than a known one, by halving it until no part could hold one less by `withinM`: a part's least is at
 * most the way from its middle to its edge below its middle's. Knows nothing of samples and slopes.
 */
function exhaustive(
  wire: SweptWire,
  knownM: number,
  withinM: number,
  gapAt: (x: number, y: number, z: number) => number,
): number {
  const [alongM, acrossM] = speeds(wire);
  const at = { xM: 0, yM: 0, zM: 0 };
  let least = knownM;
  const parts: [number, number, number, number][] = [[0, 1, -wire.swingRad, wire.swingRad]];
  while (parts.length > 0) {
    const [from, to, low, high] = parts.pop()!;
    wirePointInto(at, wire, (from + to) / 2, (low + high) / 2);
    const gapM = gapAt(at.xM, at.yM, at.zM);
    least = Math.min(least, gapM);
    const along = ((to - from) / 2) * alongM;
    const across = ((high - low) / 2) * acrossM;
    if (gapM - along - across >= least - withinM) continue;
    if (along >= across) parts.push([from, (from + to) / 2, low, high], [(from + to) / 2, to, low, high]);
    else parts.push([from, to, low, (low + high) / 2], [from, to, (low + high) / 2, high]);
  }
  return least;
}

describe("a limit", () => {
  it("answers as the whole search does whether the gap is less, for wires at rest and swung", () => {
    const random = randomFrom(3);
    const between = (low: number, high: number): number => low + ((high - low) * random(2 ** 30)) / 2 ** 30;
    let below = 0;
    for (let run = 0; run < 600; run += 1) {
      const heightM = between(5, 16);
      const crown = roundCrown(heightM, heightM * between(0, 0.6), between(1, 6), random.pick(HABITS));
      const [x, y, az, bz, sagM] = [between(-30, 30), between(-9, 9), between(8, 13), between(8, 13), between(0, 2)];
      const still = stillWire(x - 30, y, az, x + 30, y, bz, sagM);
      const wire = run % 2 === 0 ? still : { ...still, swingRad: 0.7, swungSagM: sagM + 0.1 };
      const limitM = between(0, 6);
      const whole = emptyWireGap();
      gapToWire(whole, crown, wire, 0, 0, 0, 20);
      // Within the search's own centimeter either answer is right.
      if (Math.abs(whole.gapM - limitM) < 0.01) continue;
      const limited = emptyWireGap();
      gapToWire(limited, crown, wire, 0, 0, 0, 20, limitM);
      expect(limited.gapM < limitM, `run ${run}`).toBe(whole.gapM < limitM);
      if (whole.gapM < limitM) below += 1;
    }
    expect(below).toBeGreaterThan(100);
  });
});

describe("1,000 seeded wires and crowns against an exhaustive search", () => {
  it("agree within 1 cm outside the crown, and on being inside", () => {
    const random = randomFrom(7);
    const between = (low: number, high: number): number => low + ((high - low) * random(2 ** 30)) / 2 ** 30;
    let outside = 0;
    let worstM = 0;
    let worstDepthM = 0;
    for (let run = 0; run < 1000; run += 1) {
      const heightM = between(5, 16);
      const isRound = between(0, 1) < 0.5;
      const radiusM = between(1, 6);
      const radius = (): number => (isRound ? radiusM : between(1, 6));
      const crown: Crown = {
        heightM,
        crownBaseM: heightM * between(0, 0.6),
        radii: { northM: radius(), eastM: radius(), southM: radius(), westM: radius() },
        habit: random.pick(HABITS),
      };
      const spanM = between(15, 90);
      const bearing = between(0, 2 * Math.PI);
      const aside = between(-10, 10);
      const ahead = between(0.1, 0.9) * spanM;
      const [ex, ey] = [Math.sin(bearing), Math.cos(bearing)];
      const stillSagM = spanM * between(0.005, 0.06);
      const az = between(8, 13);
      const bz = az + between(-2, 2);
      const isSwung = between(0, 1) < 0.6;
      const wire: SweptWire = {
        ax: -ahead * ex - aside * ey,
        ay: -ahead * ey + aside * ex,
        az,
        bx: (spanM - ahead) * ex - aside * ey,
        by: (spanM - ahead) * ey + aside * ex,
        bz,
        stillSagM,
        swungSagM: isSwung ? stillSagM * between(1, 1.3) : stillSagM,
        swingRad: isSwung ? between(0.1, 1.2) : 0,
        stringM: between(0, 1) < 0.3 ? between(0.3, 1.5) : 0,
        parameterM: stillSagM > 0.03 * spanM ? catenaryParameterM(spanM, stillSagM, bz - az) : 0,
      };
      const gap = emptyWireGap();
      gapToWire(gap, crown, wire, 0, 0, 0, 1000);
      const least = exhaustive(wire, gap.gapM, 0.01, (x, y, z) => distanceToCrownM(crown, x, y, z));
      const at = { xM: 0, yM: 0, zM: 0 };
      wirePointInto(at, wire, gap.share, gap.angleRad);
      // The place told is on the wire and as far from the crown as the gap.
      expect([gap.xM, gap.yM, gap.zM]).toEqual([at.xM, at.yM, at.zM]);
      expect(distanceToCrownM(crown, at.xM, at.yM, at.zM)).toBe(gap.gapM);
      if (least > 0.01) {
        outside += 1;
        worstM = Math.max(worstM, Math.abs(gap.gapM - least));
      } else if (least < 0) {
        expect(gap.gapM).toBeLessThan(0.01);
        if (isRound) worstDepthM = Math.max(worstDepthM, gap.gapM - least);
      }
    }
    expect(outside).toBeGreaterThan(400);
    // Nothing was found that is nearer by more than rounding, and nothing can be by 1 cm; inside, 1 cm is the depth's last step and chords.
    expect(worstM).toBeLessThan(0.0001);
    expect(worstDepthM).toBeLessThan(0.01);
  });
});
