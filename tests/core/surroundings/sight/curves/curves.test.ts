import { describe, expect, it } from "vitest";
import { findCurves } from "../../../../../src/core/surroundings/sight/curves/find-curves.ts";
import { fitCircle } from "../../../../../src/core/surroundings/sight/curves/fit-circle.ts";
import { sightAroundCurve } from "../../../../../src/core/surroundings/sight/curves/sight-around-curve.ts";
import { randomFrom } from "../../../../fuzz/random.ts";

type Point = readonly [number, number];

/** A straight of 150 m eastward, an arc to the left of a radius and turn, a straight of 150 m; a vertex every `stepM` on the arc. */
function road(radiusM: number, turnDeg: number, stepM: number, noise: () => number = () => 0): Point[] {
  const turn = (turnDeg * Math.PI) / 180;
  const steps = Math.max(2, Math.round((radiusM * turn) / stepM));
  const points: Point[] = [
    [-150, 0],
    [-75, 0],
  ];
  for (let at = 0; at <= steps; at += 1) {
    const angle = (turn * at) / steps;
    points.push([radiusM * Math.sin(angle), radiusM * (1 - Math.cos(angle))]);
  }
  const [x, y] = points[points.length - 1]!;
  points.push([x + 75 * Math.cos(turn), y + 75 * Math.sin(turn)], [x + 150 * Math.cos(turn), y + 150 * Math.sin(turn)]);
  return points.map(([px, py]) => [px + noise(), py + noise()]);
}

describe("a circle fitted by Taubin's method", () => {
  it("is the circle itself for points on it", () => {
    const points = [0.1, 0.4, 0.5, 0.9].map((angle): Point => [7 + 80 * Math.cos(angle), -3 + 80 * Math.sin(angle)]);
    const circle = fitCircle(points)!;
    expect(circle.xM).toBeCloseTo(7, 6);
    expect(circle.yM).toBeCloseTo(-3, 6);
    expect(circle.radiusM).toBeCloseTo(80, 6);
    expect(circle.errorM).toBeLessThan(1e-6);
  });

  it("is none for points on a line and for two points", () => {
    expect(
      fitCircle([
        [0, 0],
        [1, 1],
        [2, 2],
        [3, 3],
      ]),
    ).toBeNull();
    expect(
      fitCircle([
        [0, 0],
        [1, 1],
      ]),
    ).toBeNull();
  });
});

describe("horizontal curves", () => {
  it.each([
    [30, 80, 4],
    [60, 45, 6],
    [100, 90, 10],
    [100, 30, 8],
    [250, 40, 20],
    [600, 25, 30],
  ])("of %i m radius turning by %i degrees are found with radius, turn and length", (radiusM, turnDeg, stepM) => {
    const curves = findCurves(road(radiusM, turnDeg, stepM), 10);
    expect(curves).toHaveLength(1);
    const curve = curves[0]!;
    // Vertices on the arc fit it exactly; of its turn a vertex near a tangent can be taken for noise.
    expect(Math.abs(curve.radiusM / radiusM - 1)).toBeLessThan(0.01);
    expect(Math.abs(curve.turnDeg - turnDeg)).toBeLessThan(1);
    expect(Math.abs(curve.lengthM / ((radiusM * turnDeg * Math.PI) / 180) - 1)).toBeLessThan(0.03);
  });

  it("turn to the right where the line does", () => {
    const mirrored = road(80, 60, 6).map(([x, y]): Point => [x, -y]);
    // Less than a degree of it lies in vertices too near to the tangents to be told from noise.
    expect(Math.abs(findCurves(mirrored, 10)[0]!.turnDeg + 60)).toBeLessThan(1);
  });

  it("are the same under a rotation of the line", () => {
    const turned = road(80, 60, 6).map(([x, y]): Point => [0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y]);
    expect(findCurves(turned, 10)[0]!.radiusM).toBeCloseTo(findCurves(road(80, 60, 6), 10)[0]!.radiusM, 6);
  });

  it("are found within a tenth of the radius in lines drawn with 0.2 m of noise, and none is seen in a straight so drawn", () => {
    const random = randomFrom(11);
    const noise = (): number => (random(4001) - 2000) / 10_000;
    for (let run = 0; run < 50; run += 1) {
      const curves = findCurves(road(100, 60, 10, noise), 10);
      expect(curves).toHaveLength(1);
      expect(Math.abs(curves[0]!.radiusM / 100 - 1)).toBeLessThan(0.1);
      const straight = Array.from({ length: 60 }, (_, at): Point => [10 * at + noise(), noise()]);
      expect(findCurves(straight, 10)).toEqual([]);
    }
  });

  it("are two where a straight lies between two bends to one side, and none where a line turns at one vertex", () => {
    const first = road(60, 45, 6);
    const [x, y] = first[first.length - 1]!;
    const both = [
      ...first,
      ...road(60, 45, 6).map(([px, py]): Point => {
        const [dx, dy] = [px + 150, py];
        const [c, s] = [Math.SQRT1_2, Math.SQRT1_2];
        return [x + c * dx - s * dy, y + s * dx + c * dy];
      }),
    ];
    expect(findCurves(both, 10).map(({ turnDeg }) => Math.round(turnDeg))).toEqual([45, 45]);
    const corner: Point[] = [
      [0, 0],
      [100, 0],
      [100, 100],
    ];
    expect(findCurves(corner, 10)).toEqual([]);
  });
});

describe("the view around a curve", () => {
  const lane = (radiusM: number, turnDeg: number): Point[] => road(radiusM, turnDeg, 0.5);

  it("is the middle ordinate of the formula on a curve longer than the sight distance", () => {
    // R = 100 m, S = 60 m, the arc is 157 m: 100 (1 - cos(60 / 200)) = 4.466 m. The walk goes by a 32nd of S.
    const { offsetM } = sightAroundCurve(lane(100, 90), 90, 300, 60, 1);
    expect(Math.abs(offsetM - 100 * (1 - Math.cos(0.3)))).toBeLessThan(0.01);
  });

  it("is the chord across both tangents on a shorter curve", () => {
    // R = 100 m turning by 20 degrees, 34.9 m long; S = 80 m lies even over it: (80 - 34.9) / 2 = 22.5 m on each tangent. At the middle the chord
    // is R (1 - cos 10) + 22.5 sin 10 from the arc.
    const half = (10 * Math.PI) / 180;
    const expected = 100 * (1 - Math.cos(half)) + ((80 - 200 * half) / 2) * Math.sin(half);
    const { offsetM } = sightAroundCurve(lane(100, 20), 70, 185, 80, 1);
    expect(Math.abs(offsetM - expected)).toBeLessThan(0.02);
    expect(offsetM).toBeLessThan(100 * (1 - Math.cos(0.4)));
  });

  it("is nothing on a straight, and nothing on the outside", () => {
    expect(
      sightAroundCurve(
        [
          [0, 0],
          [300, 0],
        ],
        0,
        200,
        60,
        1,
      ).ring,
    ).toBeNull();
    expect(sightAroundCurve(lane(100, 90), 90, 300, 60, -1).offsetM).toBeLessThan(0.01);
  });
});
