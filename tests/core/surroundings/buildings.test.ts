import type { Geometry } from "geojson";
import { describe, expect, it } from "vitest";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import type { BuildingEnvelope } from "../../../src/core/surroundings/surroundings.ts";
import {
  features,
  OPTIONS,
  only,
  type Points,
  polygon,
  ring,
  STANDARD,
  search,
  type TreeGiven,
} from "../conflict/scene.ts";

const FT = 0.3048;
const SQUARE: Points = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];
const square = (eastM: number, halfM: number, depthM = 12): Points => [
  [eastM, -halfM],
  [eastM + depthM, -halfM],
  [eastM + depthM, halfM],
  [eastM, halfM],
];

function heightsOf(properties: Record<string, unknown>): { built: BuildingEnvelope; codes: string[] } {
  const found = buildSurroundings(
    { buildings: features("buildings", { geometry: polygon(SQUARE), properties }) },
    {},
    STANDARD,
    OPTIONS,
  );
  const envelope = found.surroundings.envelopes[0] as BuildingEnvelope;
  return { built: envelope, codes: found.findings.map(({ code }) => code) };
}

describe("heights of buildings", () => {
  it("begin on the ground, or where min_height or the lowest storey says", () => {
    expect(heightsOf({ height: 12 }).built).toMatchObject({ heightM: 12, bottomM: 0, bottomBasis: "measured" });
    expect(heightsOf({ height: 12, min_height: "4 m" }).built).toMatchObject({ bottomM: 4, bottomBasis: "measured" });
    // One storey is 10 ft.
    expect(heightsOf({ height: 12, "building:min_level": 1 }).built).toMatchObject({
      bottomM: 10 * FT,
      bottomBasis: "estimated",
    });
    expect(heightsOf({ "building:levels": 3, "building:min_level": 2 }).built.bottomM).toBeCloseTo(20 * FT, 9);
  });

  it("say in the plan where the underside is and how it is known", () => {
    const { features: shown } = buildSurroundings(
      { buildings: features("buildings", { geometry: polygon(SQUARE), properties: { height: 12, min_height: 4 } }) },
      {},
      STANDARD,
      OPTIONS,
    ).surroundings;
    expect(shown[0]!.heightSource).toBe("height; underside at 4.0 m, measured");
  });

  it("of roofs on columns are one storey, over 8 ft of air, where nothing is recorded", () => {
    for (const building of ["roof", "carport", "canopy"]) {
      const { built } = heightsOf({ building });
      // 8 ft is more than three quarters of 10 ft, which are left to the roof at most: 7.5 ft.
      expect(built.heightM).toBeCloseTo(10 * FT, 9);
      expect(built.bottomM).toBeCloseTo(7.5 * FT, 9);
      expect([built.heightBasis, built.bottomBasis]).toEqual(["assumed", "assumed"]);
    }
    expect(heightsOf({ building: "roof", height: 6 }).built.bottomM).toBeCloseTo(8 * FT, 9);
    expect(heightsOf({ building: "roof", height: 6, min_height: 0 }).built.bottomM).toBe(0);
  });

  it("that cannot be are told", () => {
    expect(heightsOf({ height: "tall" }).codes).toContain("building-height-unreadable");
    const upsideDown = heightsOf({ height: 4, min_height: 5 });
    expect(upsideDown.codes).toEqual(["building-underside-impossible"]);
    expect(upsideDown.built.bottomM).toBe(0);
    for (const building of ["no", "demolished", "proposed"]) {
      const { built, codes } = heightsOf({ building, height: 5 });
      expect([built, codes]).toEqual([undefined, ["building-not-standing"]]);
    }
  });
});

/** Ellipsoid from 2 to 12 m, 5 m wide to each side, widest at 7 m. */
const TREE: TreeGiven = { heightM: 12, baseM: 2, radiusM: 5 };

describe("crowns beside canopies", () => {
  const beside = (properties: Record<string, unknown>, tree = TREE) =>
    search([tree], { buildings: features("buildings", { geometry: polygon(square(4, 20)), properties }) }).conflicts;

  it("meet a canopy between its underside and its top only", () => {
    // From 6 to 8 m the crown is 5 m wide: 1 m into the canopy.
    const conflict = only(beside({ height: 8, min_height: 6 }), "building-side");
    expect(conflict.measuredM).toBeCloseTo(-1, 3);
    expect([conflict.region.lowM, conflict.region.highM]).toEqual([6, 8]);
    expect([conflict.solid!.lowM, conflict.solid!.highM]).toEqual([6, 8]);
    // From 11.3 m up it is at most 5 sqrt(1 - 0.86^2) = 2.55 m wide: 1.45 m free of it, 3 ft would do. Only another shape, wide near
    // its top, would meet it.
    expect(
      beside({ height: 11.5, min_height: 11.3 }, { ...TREE, error: 0.01 })
        .filter(({ kind }) => kind === "building-side")
        .map(({ certainty }) => certainty),
    ).toEqual(["possible"]);
    // On the ground the same height meets the widest part.
    expect(only(beside({ height: 11.5 }), "building-side").measuredM).toBeCloseTo(-1, 3);
  });

  it("hang under a roof on columns without touching it", () => {
    const low: TreeGiven = { heightM: 5, baseM: 1, radiusM: 5 };
    expect(beside({ height: 8, min_height: 6 }, low)).toEqual([]);
  });

  it("are at most probable where the underside is assumed", () => {
    const measured: TreeGiven = { ...TREE, error: 0.01 };
    const sure = only(beside({ height: 9, min_height: 5 }, measured), "building-side");
    const assumed = only(beside({ height: 9, building: "roof" }, measured), "building-side");
    expect([sure.certainty, assumed.certainty]).toEqual(["confirmed", "probable"]);
    expect(assumed.doubt).toBe("The building's height or underside is assumed.");
  });
});

describe("footprints", () => {
  it("with a courtyard leave a tree in it outside, and measure its walls", () => {
    const courtyard: Geometry = {
      type: "Polygon",
      coordinates: [
        ring([
          [-20, -20],
          [20, -20],
          [20, 20],
          [-20, 20],
        ]),
        ring([
          [-6, -6],
          [-6, 6],
          [6, 6],
          [6, -6],
        ]),
      ],
    };
    const buildings = features("buildings", { geometry: courtyard, properties: { height: 15 } });
    const { conflicts, findings } = search([{ ...TREE, x: 3 }], { buildings });
    expect(findings).toEqual([]);
    // 3 m from the east wall, 5 m of crown.
    const conflict = only(conflicts, "building-side");
    expect(conflict.measuredM).toBeCloseTo(-2, 3);
    expect(conflict.bearingDeg).toBeCloseTo(90, 2);
    const inside = search([{ ...TREE, x: 12 }], { buildings });
    expect(inside.findings.map(({ code }) => code)).toEqual(["trunk-in-footprint"]);
    expect(inside.conflicts.filter(({ kind }) => kind === "building-side")).toEqual([]);
  });

  it("of several parts are one building, measured at the nearest part", () => {
    const parts: Geometry = { type: "MultiPolygon", coordinates: [[ring(square(30, 5))], [ring(square(4, 5))]] };
    const { conflicts } = search([TREE], {
      buildings: features("buildings", { geometry: parts, properties: { height: 15 } }),
    });
    expect(only(conflicts, "building-side").measuredM).toBeCloseTo(-1, 3);
  });

  it("below a crown wholly above the roof are the roof's matter alone", () => {
    // Crown from 8 to 14 m over a roof at 5 m: 3 m above it, 6 ft would do, so there is neither now.
    const high: TreeGiven = { heightM: 14, baseM: 8, radiusM: 5 };
    const under = (height: number) =>
      search([high], { buildings: features("buildings", { geometry: polygon(square(1, 20)), properties: { height } }) })
        .conflicts;
    expect(under(5)).toEqual([]);
    const roof = under(7);
    expect(roof.map(({ kind }) => kind)).toEqual(["building-roof"]);
    // At a fifth of the radius the underside is 8 + (1 - sqrt(1 - 0.04)) / 2 * 6 m high.
    expect(roof[0]!.measuredM).toBeCloseTo(8 + ((1 - Math.sqrt(0.96)) / 2) * 6 - 7, 3);
  });

  it("that cut a crown always say where its branches end, whatever else is in doubt", () => {
    for (const basis of ["measured", "estimated", "assumed"] as const) {
      const { conflicts } = search([{ ...TREE, basis }], {
        buildings: features("buildings", { geometry: polygon(square(2, 20)), properties: { height: 9 } }),
      });
      const { solid } = only(conflicts, "building-side");
      // Ray 29 runs at 88.5 degrees and meets the wall at 2 / sin 88.5.
      expect(solid!.fromM[29]).toBeCloseTo(2 / Math.sin((88.5 * Math.PI) / 180), 3);
      expect(solid!.fromM[89]).toBe(Number.POSITIVE_INFINITY);
    }
  });
});
