import { describe, expect, it } from "vitest";
import type { SightArea } from "../../../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../../../src/core/plane/plane.ts";
import { buildSurroundings } from "../../../../src/core/surroundings/build-surroundings.ts";
import { features, line, OPTIONS, ORIGIN, type Points, point, STANDARD } from "../../conflict/scene.ts";
import { withTriangles } from "./sight-scene.ts";

const plane = planeOf(ORIGIN.lonDeg);
const [originX, originY] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
const inMeters = (triangle: SightArea): [number, number][] =>
  triangle.ring.map(([lonDeg, latDeg]) => {
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    return [x - originX, y - originY];
  });

/** A major road of two 12 ft lanes, 24 ft wide, east-west at 30 mph, and a minor road of the same size from the south, stopped. */
const MAJOR = { class: "collector", speed: "30 mph", lanes: 2, width: "24 ft", name: "Main" };
const MINOR = { class: "local-residential", speed: "25 mph", lanes: 2, width: "20 ft", name: "Side" };

interface Scene {
  readonly turnDeg?: number;
  readonly isMirrored?: boolean;
  readonly drive?: "right" | "left";
  readonly major?: Record<string, unknown>;
  readonly sign?: readonly [number, number];
  readonly facing?: unknown;
  readonly moreSigns?: Points;
}

function scene(given: Scene): ReturnType<typeof buildSurroundings> {
  const turn = ((given.turnDeg ?? 0) * Math.PI) / 180;
  const place = ([x0, y]: readonly [number, number]): [number, number] => {
    const x = given.isMirrored ? -x0 : x0;
    return [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)];
  };
  const major: Points = [
    [-400, 0],
    [0, 0],
    [400, 0],
  ];
  const minor: Points = [
    [0, 0],
    [0, -100],
  ];
  const signs = [given.sign ?? ([5, -10] as const), ...(given.moreSigns ?? [])];
  const built = buildSurroundings(
    {
      roads: features(
        "roads",
        { geometry: line(major.map(place)), properties: { ...MAJOR, ...given.major } },
        { geometry: line(minor.map(place)), properties: MINOR },
      ),
      signs: features(
        "signs",
        ...signs.map((at) => ({
          geometry: point(...place(at)),
          properties: { kind: "stop", ...(given.facing === undefined ? {} : { facing: given.facing }) },
        })),
      ),
    },
    {},
    STANDARD,
    { ...OPTIONS, drive: given.drive ?? "right" },
  );
  return withTriangles(built);
}

const FT = 0.3048;

describe("sightTriangles", () => {
  it("builds both triangles of a stopped leg from the published figures", () => {
    const { surroundings, findings } = scene({ facing: 180 });
    const [left, right] = surroundings.sight;
    expect([left!.direction, right!.direction]).toEqual(["left", "right"]);
    // Case B1 at 30 mph: 1.47 * 30 * 7.5 = 330.75, up to 335 ft.
    expect(left!.legM).toBeCloseTo(335 * FT, 9);
    expect(right!.legM).toBeCloseTo(335 * FT, 9);
    expect([left!.windowLowM, left!.windowHighM]).toEqual([2.5 * FT, 8 * FT]);
    // Eye: half of 24 ft and 14.5 ft back from the crossing, half a 10 ft lane to the right of the minor road's center.
    const eye = [5 * FT, -(12 + 14.5) * FT];
    const [eyeLeft, nearLeft, farLeft] = inMeters(left!);
    expect(eyeLeft![0]).toBeCloseTo(eye[0]!, 3);
    expect(eyeLeft![1]).toBeCloseTo(eye[1]!, 3);
    // Traffic from the left runs on the near lane, half of 11 ft south of the center (a collector's lane in the standard).
    expect(nearLeft![0]).toBeCloseTo(eye[0]!, 3);
    expect(nearLeft![1]).toBeCloseTo(-5.5 * FT, 3);
    expect(farLeft![0]).toBeCloseTo(eye[0]! - 335 * FT, 3);
    expect(farLeft![1]).toBeCloseTo(-5.5 * FT, 3);
    // Traffic from the right on the far lane.
    const [, nearRight, farRight] = inMeters(right!);
    expect(nearRight![1]).toBeCloseTo(5.5 * FT, 3);
    expect(farRight![0]).toBeCloseTo(eye[0]! + 335 * FT, 3);
    expect(findings.filter(({ code }) => code === "sight-leg-cut")).toEqual([]);
  });

  it("adds half a second for each lane crossed beyond the first", () => {
    // Four lanes: 8.0 s at 30 mph, 352.8 up to 355 ft.
    const [left] = scene({ facing: 180, major: { lanes: 4, width: "48 ft" } }).surroundings.sight;
    expect(left!.legM).toBeCloseTo(355 * FT, 9);
  });

  it("turns with the scene", () => {
    const straight = scene({ facing: 180 }).surroundings.sight.map(inMeters);
    // Counterclockwise by 30 degrees: the sign's face turns to 150.
    const turned = scene({ turnDeg: 30, facing: 150 }).surroundings.sight.map(inMeters);
    const [cos, sin] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
    straight.forEach((corners, triangle) => {
      corners.forEach(([x, y], corner) => {
        // A millimeter: the plane's own scale over 100 m.
        expect(turned[triangle]![corner]![0]).toBeCloseTo(x * cos - y * sin, 3);
        expect(turned[triangle]![corner]![1]).toBeCloseTo(x * sin + y * cos, 3);
      });
    });
  });

  it("is the mirror image where one drives on the left", () => {
    const right = scene({ facing: 180 }).surroundings.sight;
    const left = scene({ facing: 180, isMirrored: true, drive: "left" }).surroundings.sight;
    for (const triangle of right) {
      const image = left.find(({ direction }) => direction !== triangle.direction)!;
      expect(image.legM).toBe(triangle.legM);
      inMeters(triangle).forEach(([x, y], corner) => {
        expect(inMeters(image)[corner]![0]).toBeCloseTo(-x, 3);
        expect(inMeters(image)[corner]![1]).toBeCloseTo(y, 3);
      });
    }
  });

  it("takes the leg with the sign on its drivers' side when facing is not recorded, and says so", () => {
    const { surroundings } = scene({});
    expect(surroundings.sight).toHaveLength(2);
    expect(surroundings.sight[0]!.controlSource).toContain("facing not recorded");
    expect(surroundings.sight[0]!.roadName).toBe("Main");
  });

  it("needs only the first cars where every leg stops", () => {
    // South leg, west leg (sign south of it), east leg (sign north of it).
    const all = scene({
      moreSigns: [
        [-10, -5],
        [10, 5],
      ],
    });
    // The street from the south sees both others, each of those sees it: four, of a car's 19 ft.
    expect(all.surroundings.sight.map(({ movement, legM }) => [movement, legM])).toEqual(
      Array.from({ length: 4 }, () => ["all-way-stop", 19 * FT]),
    );
  });

  it("leaves traffic out that a one-way street does not bring", () => {
    // With the line, west to east: traffic comes from the left only.
    const { sight: triangles } = scene({ facing: 180, major: { oneway: "yes" } }).surroundings;
    expect(triangles.map(({ direction }) => direction)).toEqual(["left"]);
  });

  it("reports a sign that controls no leg and a leg that leaves the data", () => {
    expect(scene({ sign: [60, -60] }).findings.map(({ code }) => code)).toContain("stop-sign-without-leg");
    const fast = scene({ facing: 180, major: { speed: "80 mph" } });
    // 1.47 * 80 * 7.5 = 882, 885 ft or 269.7 m: within 400 m.
    expect(fast.findings.map(({ code }) => code)).not.toContain("sight-leg-cut");
    const faster = scene({ facing: 180, major: { speed: "99 mph", lanes: 8 } });
    // Three lanes more to cross: 9 s, 1,309.8, 1,310 ft or 399.3 m from the eye's foot, 1.5 m east of the node: to the west it fits.
    expect(faster.findings.filter(({ code }) => code === "sight-leg-cut")).toHaveLength(1);
  });
});
