import { describe, expect, it } from "vitest";
import { planeOf, toPlane } from "../../../src/core/plane/plane.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import { lineBeside } from "../../../src/core/surroundings/line-beside.ts";
import type { WayEnvelope } from "../../../src/core/surroundings/surroundings.ts";
import {
  at,
  features,
  type Layers,
  line,
  OPTIONS,
  ORIGIN,
  only,
  type Points,
  STANDARD,
  search,
} from "../conflict/scene.ts";

const FT = 0.3048;
/** Runs east: its left is north. */
const STREET: Points = [
  [-60, 0],
  [60, 0],
];
type Properties = Record<string, unknown>;
const roads = (...given: readonly Properties[]): Layers => ({
  roads: features("roads", ...given.map((properties) => ({ geometry: line(STREET), properties }))),
});
const build = (layers: Layers, standard: Standard = STANDARD): ReturnType<typeof buildSurroundings> =>
  buildSurroundings(layers, {}, standard, OPTIONS);
const besides = (layers: Layers, standard?: Standard): string[] =>
  build(layers, standard)
    .surroundings.envelopes.filter((one): one is WayEnvelope => one.type === "way" && one.beside !== undefined)
    .map(({ withId, kind }) => `${kind} ${withId.split("/")[1]}`);
const withWalkways = (walkways: Standard["ways"]["beside"]["walkways"]): Standard => ({
  ...STANDARD,
  ways: { ...STANDARD.ways, beside: { ...STANDARD.ways.beside, walkways } },
});

describe("walkways and bikeways beside roads", () => {
  it("are those that the road records, by side", () => {
    const residential = { highway: "residential" };
    expect(besides(roads({ ...residential, sidewalk: "both" }))).toEqual([
      "walkway walkway-left",
      "walkway walkway-right",
    ]);
    expect(besides(roads({ ...residential, sidewalk: "left" }))).toEqual(["walkway walkway-left"]);
    expect(besides(roads({ ...residential, "sidewalk:right": "yes", "sidewalk:left": "no" }))).toEqual([
      "walkway walkway-right",
    ]);
    expect(besides(roads({ ...residential, sidewalk: "yes" }))).toHaveLength(2);
    for (const sidewalk of ["no", "none", "separate"]) expect(besides(roads({ ...residential, sidewalk }))).toEqual([]);
    expect(besides(roads({ ...residential, "sidewalk:both": "separate" }))).toEqual([]);
    expect(besides(roads(residential))).toEqual([]);
    expect(besides(roads({ ...residential, sidewalk: "both", bridge: "yes" }))).toEqual([]);
    expect(besides(roads({ ...residential, "cycleway:right": "track" }))).toEqual(["bikeway bikeway-right"]);
    // One-way, driving on the right: the track is on the right.
    expect(besides(roads({ ...residential, cycleway: "track", oneway: "yes" }))).toEqual(["bikeway bikeway-right"]);
    expect(besides(roads({ ...residential, cycleway: "track", oneway: "-1" }))).toEqual(["bikeway bikeway-left"]);
    expect(besides(roads({ ...residential, cycleway: "lane" }))).toEqual([]);
  });

  it("are never added to ways that are mapped", () => {
    const recorded = { highway: "residential", sidewalk: "both", cycleway: "track" };
    expect(besides({ ...roads(recorded), paths: [] })).toEqual([]);
    const footway = { highway: "footway" };
    expect(besides(roads(recorded, footway))).toEqual(["bikeway bikeway-left", "bikeway bikeway-right"]);
  });

  it("are assumed beside every street, or nowhere, as the standard says", () => {
    const layers = roads(
      { highway: "residential" },
      { highway: "service" },
      { highway: "motorway" },
      { highway: "primary" },
    );
    expect(besides(layers, withWalkways("assumed"))).toHaveLength(4);
    expect(besides(roads({ highway: "residential", sidewalk: "no" }), withWalkways("assumed"))).toEqual([]);
    expect(besides(roads({ highway: "residential", sidewalk: "both" }), withWalkways("off"))).toEqual([]);
  });

  it("lie a planting strip from the roadway, and leave the kind named as not checked", () => {
    const { surroundings, findings } = build(roads({ highway: "residential", width: "30 ft", sidewalk: "left" }));
    const [, walk] = surroundings.features;
    // Center: 15 ft to the edge, 5 ft of strip, half of a walk of 5 ft: 22.5 ft to the north.
    const [lonDeg, latDeg] = (walk!.geometry as { coordinates: number[][] }).coordinates[0]!;
    const plane = planeOf(ORIGIN.lonDeg);
    const [, originY] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
    expect(toPlane(plane, lonDeg!, latDeg!)[1] - originY).toBeCloseTo(22.5 * FT, 3);
    // At most from the edge itself, 7.5 ft nearer, to 15 + 12 + 10 ft: 14.5 ft to each side.
    expect(walk!.width!.typicalM).toBeCloseTo(5 * FT, 9);
    expect(walk!.width!.maxM).toBeCloseTo(29 * FT, 9);
    expect(surroundings.notChecked).toContain("walkway");
    expect(findings.map(({ code }) => code)).toEqual(["walkways-beside-roads"]);
  });

  it("are probable at most where the road's width is known, else only possible", () => {
    // Trunk 8 ft north of the walk's center; a crown of 5 m hangs 2 m over it.
    const tree = { y: 30.5 * FT, heightM: 12, baseM: 1.5, radiusM: 5, error: 0.01 };
    const walk = (properties: Properties, standard?: Standard) =>
      only(search([tree], roads({ highway: "residential", ...properties }), standard).conflicts, "walkway");
    expect(walk({ width: "30 ft", sidewalk: "left" })).toMatchObject({
      certainty: "probable",
      doubt: "The walkway is recorded beside the road; how far from it is assumed.",
      hazard: "walk-headroom",
    });
    expect(walk({ lanes: 3, parking: "no", sidewalk: "left" }).certainty).toBe("probable");
    expect(walk({ sidewalk: "left" }).certainty).toBe("possible");
    expect(walk({ width: "30 ft" }, withWalkways("assumed"))).toMatchObject({
      certainty: "possible",
      doubt: "That there is a walkway beside the road, and where, is assumed.",
      hazard: null,
    });
  });

  it("say nothing of a trunk that stands where one is assumed, and are only possible there", () => {
    const tree = { y: 22.5 * FT, heightM: 12, baseM: 1.5, radiusM: 5 };
    const { conflicts, findings } = search([tree], roads({ highway: "residential", width: "30 ft", sidewalk: "left" }));
    expect(only(conflicts, "walkway").certainty).toBe("possible");
    expect(findings).toEqual([]);
  });
});

describe("lineBeside", () => {
  const inMeters = (positions: readonly (readonly number[])[]): number[][] => {
    const plane = planeOf(ORIGIN.lonDeg);
    const [x0, y0] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
    return positions.map(([lonDeg, latDeg]) => {
      const [x, y] = toPlane(plane, lonDeg!, latDeg!);
      return [Number((x - x0).toFixed(3)) + 0, Number((y - y0).toFixed(3)) + 0];
    });
  };

  it("keeps the distance on both sides of a corner", () => {
    const corner = [at(0, 0), at(10, 0), at(10, 0), at(10, 10)];
    expect(inMeters(lineBeside(corner, 2))).toEqual([
      [0, 2],
      [8, 2],
      [8, 10],
    ]);
    expect(inMeters(lineBeside(corner, -2))).toEqual([
      [0, -2],
      [12, -2],
      [12, 10],
    ]);
  });

  it("cuts off a hairpin, and is empty for a line of no length", () => {
    // Back the way it came: the outside of the turn gets two corners, none farther out than the offset.
    expect(inMeters(lineBeside([at(0, 0), at(10, 0), at(0, 0)], 2))).toEqual([
      [0, 2],
      [10, 2],
      [10, -2],
      [0, -2],
    ]);
    expect(lineBeside([at(0, 0), at(0, 0)], 2)).toEqual([]);
    expect(lineBeside([], 2)).toEqual([]);
  });
});
