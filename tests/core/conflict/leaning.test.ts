import { describe, expect, it } from "vitest";
import { features, line, only, type Points, polygon, search } from "./scene.ts";

/** A strip of road from x meters east on, and a crown of 4 m radius, 10 m high, base 2 m. */
const roadFrom = (xM: number) =>
  features("roads", {
    geometry: polygon([
      [xM, -40],
      [xM + 8, -40],
      [xM + 8, 40],
      [xM, 40],
    ]),
  });
const CROWN = { heightM: 10, baseM: 2, radiusM: 4 };
const offset = (eastM: number, northM = 0, stemRunM = 0) => ({
  more: { crownEastM: eastM, crownNorthM: northM, stemRunM },
});

describe("a crown beside its trunk", () => {
  it("is measured from its own axis, and the trunk from its foot", () => {
    // Axis 2 m east of the trunk, road 5 m east of it: 3 m from the axis, 0.75 of the radius.
    const conflict = only(search([{ ...CROWN, ...offset(2) }], { roads: roadFrom(5) }).conflicts, "roadway");
    // 2 + (1 - sqrt(1 - 0.75^2)) / 2 * 8 = 3.3542
    expect(conflict.measuredM).toBeCloseTo(3.3542, 3);
    expect(conflict.distanceM).toBeCloseTo(3, 6);
    expect(conflict.trunkDistanceM).toBeCloseTo(5, 6);
    expect(conflict.bearingDeg).toBeCloseTo(90, 3);
  });

  it("equals the same crown over a trunk that stands there", () => {
    const beside = only(search([{ ...CROWN, ...offset(2, 1) }], { roads: roadFrom(5) }).conflicts, "roadway");
    const over = only(search([{ ...CROWN, x: 2, y: 1 }], { roads: roadFrom(5) }).conflicts, "roadway");
    expect(beside.measuredM).toBeCloseTo(over.measuredM, 9);
    expect([...beside.region.fromM]).toEqual([...over.region.fromM].map((fromM) => expect.closeTo(fromM, 6)));
    const [one, other] = [beside, over].map(({ encroachment }) => encroachment!.coordinates[0]!);
    expect(one).toHaveLength(other!.length);
    one!.forEach((position, at) => {
      expect(position[0]).toBeCloseTo(other![at]![0]!, 9);
      expect(position[1]).toBeCloseTo(other![at]![1]!, 9);
    });
  });

  it("over a road whose edge runs between it and its trunk is no trunk in the road", () => {
    const found = search([{ ...CROWN, ...offset(3) }], { roads: roadFrom(1) });
    const conflict = only(found.conflicts, "roadway");
    expect(found.findings.map(({ code }) => code)).toEqual([]);
    // The axis stands 2 m inside the road, where the crown hangs to its base; the road lies to the east.
    expect(conflict.measuredM).toBeCloseTo(2, 6);
    expect([conflict.distanceM, conflict.trunkDistanceM]).toEqual([0, expect.closeTo(1, 6)]);
    expect(conflict.bearingDeg).toBeCloseTo(90, 3);
    expect(conflict.certainty).toBe("confirmed");
  });

  it("over a pavement while its trunk stands in the road is a finding about the trunk", () => {
    const found = search([{ ...CROWN, x: 1, ...offset(-3) }], { roads: roadFrom(0) });
    expect(found.findings.map(({ code }) => code)).toEqual(["trunk-in-roadway"]);
    const conflict = only(found.conflicts, "roadway");
    expect(conflict.trunkDistanceM).toBe(0);
    expect(conflict.distanceM).toBeCloseTo(2, 6);
    expect(conflict.certainty).toBe("possible");
  });

  it("keeps every cut off the stem, which runs inside a leaning crown", () => {
    const points: Points = [
      [0, -40],
      [0, 40],
    ];
    const roads = features("roads", { geometry: line(points), properties: { width: 10 } });
    const conflict = only(search([{ ...CROWN, x: -7, ...offset(3, 0, 1.2) }], { roads }).conflicts, "roadway");
    // Stem unknown: 0.1 m, and 1.2 m of run.
    for (const fromM of conflict.region.fromM) expect(fromM).toBeGreaterThanOrEqual(1.3);
  });

  it("leaning over a wall passes it by all that lies beyond", () => {
    const buildings = features("buildings", {
      geometry: polygon([
        [2, -20],
        [30, -20],
        [30, 20],
        [2, 20],
      ]),
      properties: { height: 12 },
    });
    const found = search([{ ...CROWN, ...offset(3) }], { buildings });
    // The axis stands 1 m behind the wall, the crown reaches 4 m farther.
    expect(only(found.conflicts, "building-side").measuredM).toBeCloseTo(-5, 6);
    expect(found.findings.map(({ code }) => code)).not.toContain("trunk-in-footprint");
  });
});
