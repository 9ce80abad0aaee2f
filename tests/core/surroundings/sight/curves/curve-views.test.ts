import { describe, expect, it } from "vitest";
import type { SightArea } from "../../../../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../../../../src/core/plane/plane.ts";
import { features, line, OPTIONS, ORIGIN, only, type Points, STANDARD, search } from "../../../conflict/scene.ts";

type XY = readonly [number, number];

/** A street that comes from the west, bends to the left on a circle about (0, radius) and goes on; a vertex every 4 degrees. */
function bend(radiusM: number, turnDeg: number, place: (at: XY) => XY = (at) => at): Points {
  const arc = Array.from({ length: Math.round(turnDeg / 4) + 1 }, (_, at): XY => {
    const angle = (at * 4 * Math.PI) / 180;
    return [radiusM * Math.sin(angle), radiusM * (1 - Math.cos(angle))];
  });
  const turn = (turnDeg * Math.PI) / 180;
  const [x, y] = arc[arc.length - 1]!;
  const points: XY[] = [[-200, 0], ...arc, [x + 200 * Math.cos(turn), y + 200 * Math.sin(turn)]];
  return points.map(place);
}

const road = (points: Points, properties: Record<string, unknown> = {}) => ({
  roads: features("roads", {
    geometry: line(points),
    properties: { class: "collector", name: "Bend Road", speed: "30 mph", width: "20 ft", lanes: 2, ...properties },
  }),
});

const curvesOf = (layers: ReturnType<typeof road>, drive: "right" | "left" = "right"): SightArea[] =>
  search([], layers, STANDARD, { ...OPTIONS, drive }).sight.filter(({ kind }) => kind === "curve");

function meters({ ring }: SightArea): XY[] {
  const plane = planeOf(ORIGIN.lonDeg);
  const [ox, oy] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
  return ring.map(([lonDeg, latDeg]) => {
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    return [x - ox, y - oy];
  });
}

/** Farthest in meters that an area reaches inside the center of the inside lane, 5 ft from the line, about the center (0, R). */
const depthM = (area: SightArea, radiusM: number, centerY = radiusM): number =>
  radiusM - 1.524 - Math.min(...meters(area).map(([x, y]) => Math.hypot(x, y - centerY)));

describe("views around curves of a network", () => {
  it("reach inside by the middle ordinate of the stopping distance on the inside lane", () => {
    const [view, ...others] = curvesOf(road(bend(100, 60)));
    expect(others).toEqual([]);
    // 30 mph: 196.7 ft, rounded up to 200 ft.
    expect(view!.legM).toBeCloseTo(200 * 0.3048, 9);
    expect(view!.doubt).toBeNull();
    // Inside lane 5 ft inside the line: R = 98.476 m, the arc there is 103 m, longer than S: 98.476 (1 - cos(60.96 / 196.952)) = 4.68 m. The walk goes by
    // a 32nd of S on an arc drawn with 2 m chords: both within 5 cm.
    expect(Math.abs(depthM(view!, 100) - 98.476 * (1 - Math.cos(60.96 / 196.952)))).toBeLessThan(0.05);
    expect(view!.windowLowM).toBeCloseTo(2 * 0.3048, 9);
    expect(view!.windowHighM).toBeCloseTo(3.5 * 0.3048, 9);
  });

  it("are none where the sight line stays on the roadway", () => {
    // R = 700 m: the offset is 0.66 m, the edge lies 1.5 m inside the lane's center.
    expect(curvesOf(road(bend(700, 24)))).toEqual([]);
  });

  it("are taken at the speed at which the curve can be driven, in doubt, where that is less", () => {
    const [view] = curvesOf(road(bend(20, 80), { speed: "50 mph" }));
    // Inside lane: 18.476 m = 60.6 ft; sqrt(15 * 60.6 * 0.3) = 16.5 mph.
    expect(view!.designSpeedKmh / 1.609344).toBeCloseTo(Math.sqrt(15 * (18.476 / 0.3048) * 0.3), 0);
    expect(view!.doubt).toMatch(/Nobody drives this curve faster/);
  });

  it("are the mirror image where one drives on the left, and turn with the road", () => {
    const [right] = curvesOf(road(bend(100, 60)));
    const [left] = curvesOf(road(bend(100, 60, ([x, y]) => [x, -y])), "left");
    expect(Math.abs(depthM(left!, 100, -100) - depthM(right!, 100))).toBeLessThan(0.01);
    const [turned] = curvesOf(road(bend(100, 60, ([x, y]) => [-y, x]).slice()));
    const center = meters(turned!).map(([x, y]) => Math.hypot(x + 100, y));
    expect(Math.abs(100 - 1.524 - Math.min(...center) - depthM(right!, 100))).toBeLessThan(0.01);
  });

  it("are those of the traffic there is on a one-way road", () => {
    const [view] = curvesOf(road(bend(100, 60), { oneway: "yes", lanes: 1, width: "12 ft" }));
    // One lane in the middle of the line: R = 100 m.
    const offsetM = 100 * (1 - Math.cos(60.96 / 200));
    expect(Math.abs(depthM(view!, 100) + 1.524 - offsetM)).toBeLessThan(0.05);
  });

  it("hold a shrub in them, which hides some of the road, and no high crown", () => {
    // 3 m inside the lane's center at the middle of the curve, 30 degrees along it.
    const at = { x: (100 - 4.5) * Math.sin(Math.PI / 6), y: 100 - (100 - 4.5) * Math.cos(Math.PI / 6) };
    const low = search([{ ...at, heightM: 2, baseM: 0, radiusM: 1, error: 0 }], road(bend(100, 60)));
    const conflict = only(low.conflicts, "curve");
    expect(conflict.certainty).toBe("confirmed");
    expect(conflict.hiddenShare).toBeGreaterThan(0);
    expect(low.sight[0]!.hidden!.share).toBeCloseTo(conflict.hiddenShare!, 9);
    const high = search([{ ...at, heightM: 12, baseM: 2, radiusM: 1, error: 0 }], road(bend(100, 60)));
    expect(high.conflicts.filter(({ kind }) => kind === "curve")).toEqual([]);
    expect(high.sight[0]!.hidden!.share).toBe(0);
  });
});
