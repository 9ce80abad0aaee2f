import { describe, expect, it } from "vitest";
import {
  features,
  line,
  OPTIONS,
  only,
  type Points,
  point,
  polygon,
  STANDARD,
  search,
  type TreeGiven,
} from "./scene.ts";

const FT = 0.3048;
/** Ellipsoid 12 m high on a base of 2 m, 5 m wide to each side: at 3 m, a share of 0.6, its underside is 2 + (1 - 0.8) / 2 * 10 = 3 m high. */
const TREE: TreeGiven = { heightM: 12, baseM: 2, radiusM: 5 };
const east = (fromM: number, toM: number, halfM = 60): Points => [
  [fromM, -halfM],
  [toM, -halfM],
  [toM, halfM],
  [fromM, halfM],
];
const road = (points: Points, properties = {}): ReturnType<typeof features> =>
  features("roads", { geometry: polygon(points), properties });

describe("ways", () => {
  it("measure the headroom under the crown at the way's edge", () => {
    const { conflicts } = search([TREE], { roads: road(east(3, 12), { name: "Elm St" }) });
    const conflict = only(conflicts, "roadway");
    // Millimeters: the scene is drawn through longitude and latitude.
    expect(conflict.measuredM).toBeCloseTo(3, 3);
    expect(conflict.minimumM).toBeCloseTo(14 * FT, 9);
    expect(conflict.encroachmentM).toBeCloseTo(14 * FT - 3, 3);
    expect(conflict.distanceM).toBeCloseTo(3, 3);
    expect(conflict.bearingDeg).toBeCloseTo(90, 3);
    expect(conflict.hazard).toBe("vehicle-height");
    expect(conflict.reachedOn).toBe("2026-04-01");
    expect(conflict.withName).toBe("Elm St");
    expect(conflict.conflictId).toBe("roadway:t0:roads/roads.geojson#0");
    expect(conflict.certainty).toBe("probable");
  });

  it("free from the edge out to the clear-to height, by rays", () => {
    const { region } = only(search([TREE], { roads: road(east(3, 4)) }).conflicts, "roadway");
    expect([region.lowM, region.highM]).toEqual([0, 15 * FT]);
    // Ray 29 runs at 88.5 degrees: it enters at 3 / sin 88.5 and leaves at 4 / sin 88.5.
    const sine = Math.sin((88.5 * Math.PI) / 180);
    expect(region.fromM[29]).toBeCloseTo(3 / sine, 3);
    expect(region.toM[29]).toBeCloseTo(4 / sine, 3);
    // Ray 89, to the west, misses.
    expect(region.fromM[89]).toBe(Number.POSITIVE_INFINITY);
  });

  it("widen a centerline by half its width", () => {
    const roads = features("roads", {
      geometry: line([
        [10, -60],
        [10, 60],
      ]),
      properties: { width: "14 m" },
    });
    const conflict = only(search([TREE], { roads }).conflicts, "roadway");
    expect(conflict.measuredM).toBeCloseTo(3, 3);
    expect(conflict.distanceM).toBeCloseTo(3, 3);
    expect(conflict.region.fromM[29]).toBeCloseTo(3 / Math.sin((88.5 * Math.PI) / 180), 3);
  });

  it("take unequal radii quadrant by quadrant", () => {
    const radii = { northM: 2, eastM: 5, southM: 5, westM: 5 };
    // A corner at (3, 1): share^2 = (3/5)^2 + (1/2)^2 = 0.61; underside 2 + (1 - sqrt 0.39) / 2 * 10.
    const corner: Points = [
      [3, 1],
      [30, 1],
      [30, 30],
      [3, 30],
    ];
    const conflict = only(search([{ ...TREE, radii }], { roads: road(corner) }).conflicts, "roadway");
    expect(conflict.measuredM).toBeCloseTo(2 + ((1 - Math.sqrt(0.39)) / 2) * 10, 3);
  });

  it("are confirmed only when it holds for every habit at the favorable end", () => {
    // At 1 m: 1 / 4.75 = 0.2105; even a vase, 2.1 + 0.0443 * 10.5 = 2.57 m, is below 4.27 m.
    expect(only(search([TREE], { roads: road(east(1, 12)) }).conflicts, "roadway").certainty).toBe("confirmed");
    const estimated = search([{ ...TREE, basis: "estimated" }], { roads: road(east(1, 12)) });
    expect(only(estimated.conflicts, "roadway").certainty).toBe("probable");
    expect(only(estimated.conflicts, "roadway").doubt).toBe(
      "The height, crown base and crown radius are not measured.",
    );
    const assumed = search([{ ...TREE, basis: "assumed" }], { roads: road(east(1, 12)) });
    expect(only(assumed.conflicts, "roadway").certainty).toBe("possible");
  });

  it("are possible when only the width decides, and say so", () => {
    // Center 9 m away; a local residential street is 22, 30 or 40 ft wide: edges at 5.65, 4.43 and 2.90 m from the trunk of 3.5 m radius.
    const roads = features("roads", {
      geometry: line([
        [9, -60],
        [9, 60],
      ]),
      properties: { class: "local" },
    });
    const conflict = only(search([{ ...TREE, radiusM: 3.5 }], { roads }).conflicts, "roadway");
    expect(conflict.certainty).toBe("possible");
    expect(conflict.doubt).toBe("Road width is assumed: 22 ft to 40 ft; needs an edge survey.");
    const inMeters = search([{ ...TREE, radiusM: 3.5 }], { roads }, STANDARD, { ...OPTIONS, units: "metric" });
    expect(only(inMeters.conflicts, "roadway").doubt).toBe(
      "Road width is assumed: 6.7 m to 12.2 m; needs an edge survey.",
    );
    expect(conflict.encroachment).toBeNull();
    expect(conflict.hazard).toBeNull();
  });

  it("report a trunk inside and stay possible", () => {
    const { conflicts, findings } = search([TREE], { roads: road(east(-2, 12)) });
    const conflict = only(conflicts, "roadway");
    expect(conflict.measuredM).toBe(2);
    expect([conflict.certainty, conflict.distanceM]).toEqual(["possible", 0]);
    expect(findings.map(({ code }) => code)).toEqual(["trunk-in-roadway"]);
    expect(Math.min(...conflict.region.fromM)).toBeGreaterThan(0);
  });

  it("let a headroom measured in the field outrank the model", () => {
    const roads = road(east(3, 12));
    const low = only(search([{ ...TREE, headroomM: 3.5 }], { roads }).conflicts, "roadway");
    expect([low.measuredM, low.certainty, low.basis]).toEqual([3.5, "confirmed", "measured"]);
    // Droop of 2 cm a year takes 5 m nowhere near 4.27 m in ten years.
    expect(search([{ ...TREE, headroomM: 5 }], { roads }).conflicts).toEqual([]);
  });

  it("forecast the day on which growth in radius brings the crown over", () => {
    // A cone is as low as its base everywhere: 2 m. Its radius of 2.9 m passes 3 m after a year, 365.25 days.
    const tree: TreeGiven = { heightM: 12, baseM: 2, radiusM: 2.9, habit: "cone", error: 0, radiusGrowthM: 0.1 };
    const conflict = only(search([tree], { roads: road(east(3, 12)) }).conflicts, "roadway");
    expect(conflict.reachedOn).toBe("2027-04-02");
    expect(conflict.certainty).toBe("probable");
    expect(conflict.measuredM).toBe(14 * FT);
    expect([conflict.encroachmentM, conflict.hazard, conflict.encroachment]).toEqual([0, null, null]);
    // At 1 cm a year it takes ten years and is not reached within two cycles of five.
    expect(search([{ ...tree, radiusGrowthM: 0.009 }], { roads: road(east(3, 12)) }).conflicts).toEqual([]);
  });

  it("forecast droop of 2 cm a year", () => {
    // Base 3.3 m: 4.3 m over the edge, 0.0328 m above the minimum of 4.2672 m: 1.64 years.
    const tree: TreeGiven = { heightM: 13.3, baseM: 3.3, radiusM: 5, error: 0 };
    const conflict = only(search([tree], { roads: road(east(3, 12)) }).conflicts, "roadway");
    // 0.0328 / 0.02 * 365.25 = 599.0 days, give or take 18 days a millimeter.
    expect(Math.abs(Date.parse(conflict.reachedOn) - Date.parse("2026-04-01")) / 86_400_000 - 599).toBeLessThan(19);
  });

  it("hold walkways and bikeways to their own rules", () => {
    const paths = features(
      "paths",
      { geometry: polygon(east(1, 3)), properties: { class: "sidewalk" } },
      { geometry: polygon(east(-3, -1)), properties: { class: "shared path" } },
    );
    const { conflicts } = search([{ ...TREE, baseM: 1.8 }], { paths });
    expect(conflicts.map(({ kind, clearToM }) => [kind, clearToM])).toEqual([
      ["walkway", 9 * FT],
      ["bikeway", 10 * FT],
    ]);
    expect(conflicts[0]!.hazard).toBe("walk-headroom");
    expect(conflicts[1]!.bearingDeg).toBeCloseTo(270, 3);
  });
});

describe("buildings", () => {
  const building = (points: Points, heightM: number): ReturnType<typeof features> =>
    features("buildings", { geometry: polygon(points), properties: { height: heightM } });

  it("measure the gap between wall and crown up to the eaves", () => {
    // Widest at 7 m, below the eaves: 6 - 5.5.
    const high = only(
      search([{ ...TREE, radiusM: 5.5 }], { buildings: building(east(6, 20), 10) }).conflicts,
      "building-side",
    );
    expect(high.measuredM).toBeCloseTo(0.5, 3);
    expect(high.admits).not.toContain("lift");
    expect(high.region.highM).toBe(10);
    // Eaves at 4 m: u = 0.2, share sqrt(1 - 0.36) = 0.8, gap 6 - 4.4 = 1.6 m: free.
    const low = search([{ ...TREE, radiusM: 5.5 }], { buildings: building(east(6, 20), 4) });
    expect(low.conflicts.filter(({ kind, certainty }) => kind === "building-side" && certainty !== "possible")).toEqual(
      [],
    );
  });

  it("free what is beyond the clear-to plane, from the trunk's side only", () => {
    const { region } = only(
      search([{ ...TREE, radiusM: 5.5 }], { buildings: building(east(6, 20), 10) }).conflicts,
      "building-side",
    );
    // The plane is 6 ft before the wall; on ray 29 at (6 - 1.8288) / sin 88.5.
    expect(region.fromM[29]).toBeCloseTo((6 - 6 * FT) / Math.sin((88.5 * Math.PI) / 180), 3);
    expect(region.toM[29]).toBeCloseTo(5.5 * 1.05, 6);
  });

  it("say what a building fills, where no branch can be", () => {
    const { solid } = only(
      search([{ ...TREE, radiusM: 5.5 }], { buildings: building(east(5, 20), 10) }).conflicts,
      "building-side",
    );
    expect([solid!.lowM, solid!.highM]).toEqual([0, 10]);
    // From the wall on, on ray 29 at 5 / sin 88.5, and all behind it; ray 89, to the west, meets none.
    expect(solid!.fromM[29]).toBeCloseTo(5 / Math.sin((88.5 * Math.PI) / 180), 3);
    expect(solid!.toM[29]).toBe(Number.POSITIVE_INFINITY);
    expect(solid!.fromM[89]).toBe(Number.POSITIVE_INFINITY);
  });

  it("are named in findings by their name, never by an id, which stands beside", () => {
    const { findings } = search([TREE], { buildings: building(east(0.5, 20), 8) });
    expect(findings).toMatchObject([
      {
        value: "buildings.geojson#0",
        reason: "The trunk stands 1 ft 8 in from a building, nearer than the 3 ft its wall is kept clear by.",
      },
    ]);
  });

  it("measure unequal radii by the outline", () => {
    const radii = { northM: 5.5, eastM: 3, southM: 5.5, westM: 3 };
    const tree = { ...TREE, radiusM: 4.25, radii };
    const conflict = only(
      search([tree], {
        buildings: building(
          [
            [-20, 6],
            [20, 6],
            [20, 20],
            [-20, 20],
          ],
          10,
        ),
      }).conflicts,
      "building-side",
    );
    // The polygon's corners stand 1.5 degrees off north: 5.5 * (1 - cos 1.5) is 2 mm.
    expect(conflict.measuredM).toBeGreaterThanOrEqual(0.4999);
    expect(conflict.measuredM).toBeLessThan(0.51);
  });

  it("measure a roof below the crown, and call the wall's part the wall's", () => {
    const { conflicts } = search([TREE], { buildings: building(east(3, 20), 4) });
    // Over the edge the underside is 3 m high: a meter below the roof. The wall: share 0.8 at the eaves, gap 3 - 4.
    const roof = only(conflicts, "building-roof");
    expect(roof.measuredM).toBeCloseTo(-1, 3);
    expect([roof.datumM, roof.region.lowM]).toEqual([4, 4]);
    expect(roof.region.highM).toBeCloseTo(4 + 10 * FT, 9);
    expect(only(conflicts, "building-side").measuredM).toBeCloseTo(-1, 3);
    // Roof at 0.7 m: 2.3 m are free, more than 6 ft and the 20 cm that limbs droop in ten years.
    const free = search([TREE], { buildings: building(east(3, 20), 0.7) }).conflicts;
    expect(free.filter(({ kind, certainty }) => kind === "building-roof" && certainty !== "possible")).toEqual([]);
  });

  it("report trunks inside the footprint and inside the clearance", () => {
    const inside = search([TREE], { buildings: building(east(-2, 20), 8) });
    expect(inside.conflicts).toEqual([]);
    expect(inside.findings.map(({ code }) => code)).toEqual(["trunk-in-footprint"]);
    const near = search([TREE], { buildings: building(east(0.5, 20), 8) });
    expect(near.findings.map(({ code }) => code)).toEqual(["trunk-inside-clearance"]);
    const { region } = only(near.conflicts, "building-side");
    // Limbs toward the wall come off from the axis on, those away from it stay.
    expect(region.fromM[29]).toBeGreaterThan(0);
    expect(region.fromM[29]).toBeLessThan(0.5);
    expect(region.fromM[89]).toBe(Number.POSITIVE_INFINITY);
  });

  it("are at most probable where the building's height is not measured", () => {
    const buildings = features("buildings", { geometry: polygon(east(3, 20)) });
    const conflict = only(search([TREE], { buildings }).conflicts, "building-side");
    expect([conflict.certainty, conflict.doubt]).toEqual(["probable", "The building's height is assumed."]);
  });
});

describe("sight triangles", () => {
  const layers = {
    roads: features(
      "roads",
      {
        geometry: line([
          [-300, 0],
          [0, 0],
          [300, 0],
        ]),
        properties: { class: "collector", speed: "30 mph", name: "Main" },
      },
      {
        geometry: line([
          [0, 0],
          [0, -100],
        ]),
        properties: { class: "local" },
      },
    ),
    signs: features("signs", { geometry: point(6, -14), properties: { kind: "stop", facing: 180 } }),
  };

  it("keep the window free of foliage", () => {
    // Well inside the left triangle's reach: the eye looks along the street, 8 m south of its center at 10 m from the crossing.
    const tree: TreeGiven = { x: -10, y: -8, heightM: 6, baseM: 1, radiusM: 2, error: 0 };
    const conflict = only(search([tree], layers).conflicts, "sight-triangle");
    expect(conflict.measuredM).toBeLessThan(8 * FT);
    expect([conflict.minimumM, conflict.clearToM]).toEqual([8 * FT, 9 * FT]);
    expect(conflict.region.lowM).toBe(2.5 * FT);
    // A shrub below 2.5 ft and a crown above 8 ft are out of the window.
    expect(search([{ ...tree, heightM: 0.7, baseM: 0 }], layers).conflicts.map(({ kind }) => kind)).not.toContain(
      "sight-triangle",
    );
    expect(search([{ ...tree, baseM: 3 }], layers).conflicts.map(({ kind }) => kind)).not.toContain("sight-triangle");
  });
});

describe("settings", () => {
  it("name the nearest road and walk, and what was not checked", () => {
    const { settings } = search([TREE], {
      roads: features("roads", {
        geometry: line([
          [15, -60],
          [15, 60],
        ]),
        properties: { width: 10, speed: "25 mph", name: "Elm" },
      }),
      paths: features("paths", { geometry: polygon(east(6, 8)) }),
    });
    expect(settings[0]!.road).toMatchObject({ name: "Elm" });
    expect(settings[0]!.road!.distanceM).toBeCloseTo(10, 3);
    expect(settings[0]!.road!.speedKmh).toBeCloseTo(40.2336, 6);
    expect(settings[0]!.walkDistanceM).toBeCloseTo(6, 3);
    expect([settings[0]!.conductorsKnown, settings[0]!.conductor]).toEqual([false, null]);
    expect(settings[0]!.notChecked).toContain("conductor");
  });

  it("are empty for a tree in the middle of nowhere", () => {
    const { settings, conflicts } = search([TREE], {});
    expect(conflicts).toEqual([]);
    expect(settings[0]).toMatchObject({ road: null, walkDistanceM: null, conductor: null });
  });
});
