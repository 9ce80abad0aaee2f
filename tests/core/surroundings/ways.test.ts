import { describe, expect, it } from "vitest";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import type { WayEnvelope } from "../../../src/core/surroundings/surroundings.ts";
import { features, type Layers, line, OPTIONS, type Points, polygon, STANDARD } from "../conflict/scene.ts";
import { shipped } from "../standard/shipped.ts";

const FT = 0.3048;
/** Runs east: its left is north. */
const STREET: Points = [
  [0, 0],
  [100, 0],
];
type Properties = Record<string, unknown>;
const build = (layers: Layers, standard: Standard = STANDARD): ReturnType<typeof buildSurroundings> =>
  buildSurroundings(layers, {}, standard, OPTIONS);
const roads = (...given: readonly Properties[]): readonly SourceFeature[] =>
  features("roads", ...given.map((properties) => ({ geometry: line(STREET), properties })));
const waysOf = (built: ReturnType<typeof buildSurroundings>): WayEnvelope[] =>
  built.surroundings.envelopes.filter((one): one is WayEnvelope => one.type === "way");
/** Least, usual and greatest width in feet, and where it comes from. */
function widthOf(properties: Properties, standard?: Standard): { ft: number[]; basis: string; source: string } {
  const built = build({ roads: roads(properties) }, standard);
  const [way] = waysOf(built);
  const { minM, typicalM, maxM } = way!.halfWidth;
  const ft = [minM, typicalM, maxM].map((halfM) => Number(((2 * halfM) / FT).toFixed(6)));
  return { ft, basis: way!.widthBasis, source: built.surroundings.features[0]!.width!.source };
}
const codes = (built: ReturnType<typeof buildSurroundings>): string[] =>
  built.findings.map(({ code }) => code).filter((code) => code !== "road-class-unknown");

describe("the width of a road", () => {
  it("is the recorded one in whatever unit, with the bays that lie outside it", () => {
    for (const width of ["9.144", "30 ft", "30'", "9,144 m", 9.144]) {
      expect(widthOf({ highway: "residential", width })).toEqual({
        ft: [30, 30, 30],
        basis: "measured",
        source: "width",
      });
    }
    expect(widthOf({ highway: "residential", "width:carriageway": "30 ft" }).ft).toEqual([30, 30, 30]);
    // Parking lanes lie inside a recorded width. Bays lie outside: 7, 8 and 8 ft on each side.
    expect(widthOf({ highway: "residential", width: "30 ft", "parking:both": "lane" }).ft).toEqual([30, 30, 30]);
    const bays = widthOf({ highway: "residential", width: "30 ft", "parking:both": "street_side" });
    expect(bays).toMatchObject({ ft: [44, 46, 46], basis: "estimated" });
    // Bays on one side: 30 ft where there are none, 15 + 8 ft from the middle where there are.
    expect(
      widthOf({ highway: "residential", width: "30 ft", "parking:left": "street_side", "parking:right": "no" }).ft,
    ).toEqual([30, 38, 46]);
  });

  it("given as an estimate has an error of a fifth", () => {
    expect(widthOf({ highway: "residential", est_width: "30 ft" })).toMatchObject({
      ft: [24, 30, 36],
      basis: "estimated",
    });
  });

  it("that cannot be read is told and left to lanes or class", () => {
    const built = build({
      roads: roads({ highway: "residential", width: "wide", lanes: "two", maxspeed: "RO:urban" }),
    });
    expect(codes(built)).toEqual(["speed-unreadable", "lanes-unreadable", "width-unreadable"]);
    expect(waysOf(built)[0]!.halfWidth.typicalM).toBeCloseTo(15 * FT, 9);
    expect(built.surroundings.features[0]!.speedSource).toBe("assumed for the class local-residential");
  });

  it("by lanes runs from 9 ft lanes without parking to 12 ft lanes with it", () => {
    // Collector lanes are 11 ft; nothing is said of parking: 2 x 9, 2 x 11, 2 x 12 + 2 x 8.
    expect(widthOf({ highway: "tertiary", lanes: 2 })).toMatchObject({ ft: [18, 22, 40], basis: "estimated" });
    expect(widthOf({ highway: "tertiary", "lanes:forward": 2, "lanes:backward": "1" }).ft).toEqual([27, 33, 52]);
    expect(widthOf({ highway: "tertiary", "lanes:forward": 2 }).basis).toBe("assumed");
    // No parking: 2 x 12 at most. Parallel on both sides: 7, 8 and 8 ft more each.
    for (const none of [{ parking: "no" }, { "parking:both": "no" }, { "parking:lane:both": "no_stopping" }]) {
      expect(widthOf({ highway: "tertiary", lanes: 2, ...none }).ft).toEqual([18, 22, 24]);
    }
    for (const both of [{ parking: "both" }, { "parking:both": "lane" }, { "parking:lane:both": "parallel" }]) {
      expect(widthOf({ highway: "tertiary", lanes: 2, ...both }).ft).toEqual([32, 38, 40]);
    }
    // A mere yes may be one side or none of the near one: nothing at least, 8 ft each as usual.
    expect(widthOf({ highway: "tertiary", lanes: 2, parking: "yes" }).ft).toEqual([18, 38, 40]);
  });

  it("holds diagonal and perpendicular stalls, shoulders and bike lanes", () => {
    const diagonal = { "parking:both": "lane", "parking:both:orientation": "diagonal" };
    expect(widthOf({ highway: "tertiary", lanes: 2, ...diagonal }).ft).toEqual([48, 56, 64]);
    expect(widthOf({ highway: "tertiary", lanes: 2, parking: "Perpendicular" }).ft).toEqual([50, 58, 64]);
    const none = { highway: "tertiary", lanes: 2, parking: "none" };
    // Shoulders 2, 4 and 8 ft; recorded ones as they are.
    expect(widthOf({ ...none, shoulder: "both" }).ft).toEqual([22, 30, 40]);
    expect(widthOf({ ...none, shoulder: "yes", "shoulder:width": "6 ft" }).ft).toEqual([30, 34, 36]);
    expect(widthOf({ ...none, shoulder_width: 3 * FT }).ft).toEqual([24, 28, 30]);
    // On one side only: none at least; the usual 22 + 4; at most 12 + 8 ft from the middle of the lanes.
    expect(widthOf({ ...none, "shoulder:right": "yes", "shoulder:left": "no" }).ft).toEqual([18, 26, 40]);
    // Bike lanes 4, 5 and 7 ft.
    expect(widthOf({ ...none, cycleway: "lane" }).ft).toEqual([26, 32, 38]);
    expect(widthOf({ ...none, cycleway: "track" }).ft).toEqual([18, 22, 24]);
    // Rural roads that say neither: shoulders of 8 ft at most take the place of parking of 8 ft at most.
    expect(widthOf({ class: "rural", lanes: 2 }).ft).toEqual([18, 22, 40]);
    expect(widthOf({ highway: "motorway", lanes: 2, oneway: "yes" }).ft).toEqual([18, 24, 48]);
  });

  it("by class is narrower for one direction of travel, and holds parallel parking already", () => {
    expect(widthOf({ highway: "residential" })).toMatchObject({ ft: [22, 30, 40], basis: "assumed" });
    // Half the least, three quarters of the usual, the greatest as it is.
    expect(widthOf({ highway: "residential", oneway: "yes" }).ft).toEqual([11, 22.5, 40]);
    expect(widthOf({ highway: "residential", oneway: "-1" }).ft).toEqual([11, 22.5, 40]);
    expect(widthOf({ highway: "residential", junction: "roundabout" }).ft).toEqual([11, 22.5, 40]);
    expect(widthOf({ highway: "residential", junction: "roundabout", oneway: "no" }).ft).toEqual([22, 30, 40]);
    // An alley of 9 ft is no narrower for being one-way: one lane at least.
    expect(widthOf({ highway: "service", oneway: "yes" }).ft).toEqual([9, 9, 20]);
    // Freeways are given by side.
    expect(widthOf({ highway: "motorway", oneway: "yes" }).ft).toEqual([24, 36, 48]);
    expect(widthOf({ highway: "residential", "parking:both": "lane" }).ft).toEqual([22, 30, 40]);
    // Diagonal stalls are 8, 9 and 12 ft deeper than the parallel lane that is in it.
    const diagonal = { "parking:both": "lane", "parking:both:orientation": "diagonal" };
    expect(widthOf({ highway: "residential", ...diagonal }).ft).toEqual([38, 48, 64]);
  });

  it("takes a city's own lane and parking widths", () => {
    const wide: Standard = {
      ...STANDARD,
      ways: {
        ...STANDARD.ways,
        laneMaxM: 13 * FT,
        parking: { ...STANDARD.ways.parking, parallel: { minM: 2, typicalM: 2, maxM: 9 * FT } },
      },
    };
    expect(widthOf({ highway: "tertiary", lanes: 2 }, wide).ft).toEqual([18, 22, 44]);
  });
});

describe("map tags of roads", () => {
  const kinds = (...given: readonly Properties[]): (string | null)[] =>
    build({ roads: roads(...given), paths: [] }).surroundings.features.map(({ kind }) => kind);

  it("say where buses run", () => {
    expect(
      kinds(
        { highway: "primary", bus: "designated" },
        { highway: "primary", psv: "yes" },
        { highway: "primary", busway: "lane" },
        { highway: "primary", "busway:right": "opposite_lane" },
        { highway: "primary", "lanes:psv": "1" },
        { highway: "busway" },
        { highway: "bus_guideway" },
      ),
    ).toEqual(Array(7).fill("bus-route"));
    expect(kinds({ highway: "primary", bus: "no", psv: "no" }, { highway: "primary", busway: "no" })).toEqual([
      "roadway",
      "roadway",
    ]);
  });

  it("leave bridges, tunnels, other levels, indoor ways and what is not in use off the ground", () => {
    expect(
      kinds(
        { highway: "primary", bridge: "viaduct" },
        { highway: "primary", tunnel: "yes" },
        { highway: "primary", layer: "-1" },
        { highway: "footway", indoor: "yes" },
        { highway: "proposed" },
        { highway: "services" },
      ),
    ).toEqual(Array(6).fill(null));
    expect(
      kinds({ highway: "primary", bridge: "no", layer: "0" }, { highway: "service", tunnel: "building_passage" }),
    ).toEqual(["roadway", "roadway"]);
  });

  it("name areas of ways", () => {
    const built = build({
      roads: features("roads", {
        geometry: polygon([
          [0, 0],
          [9, 0],
          [9, 9],
        ]),
        properties: { "area:highway": "footway" },
      }),
    });
    expect(waysOf(built)[0]).toMatchObject({ kind: "walkway", shape: "area" });
  });
});

describe("one-way roads", () => {
  // One-way class widths are half the least; freeways are one side anyhow. A track on a one-way road is on one side only.
  const sides = (properties: Properties): number =>
    build({ roads: roads({ highway: "residential", cycleway: "track", ...properties }) }).surroundings.features.length -
    1;

  it("are tagged, or implied by roundabouts and motorways", () => {
    expect(sides({})).toBe(2);
    for (const oneway of ["yes", "true", "1", "-1", "reverse"]) expect(sides({ oneway }), oneway).toBe(1);
    expect(sides({ oneway: "no" })).toBe(2);
    expect(sides({ junction: "roundabout" })).toBe(1);
    expect(sides({ highway: "motorway" })).toBe(1);
    expect(sides({ highway: "motorway", oneway: "no" })).toBe(2);
  });
});

describe("fire lanes", () => {
  const FIRE = shipped("fire-lanes");
  const kind = (properties: Properties, standard = FIRE): string | null =>
    build({ roads: roads(properties) }, standard).surroundings.features[0]!.kind;

  it("are read from column, class and tags", () => {
    for (const properties of [
      { highway: "service", service: "emergency_access" },
      { class: "Fire Lane" },
      { highway: "service", emergency: "designated", access: "no" },
      { highway: "service", fire_lane: "yes", access: "private" },
    ]) {
      expect(kind(properties), JSON.stringify(properties)).toBe("fire-lane");
    }
    expect(kind({ highway: "service" })).toBe("roadway");
    expect(kind({ highway: "service", emergency: "no" })).toBe("roadway");
    // A path that fire apparatus uses keeps 13 ft 6 in free in place of 8 ft.
    expect(kind({ highway: "path", emergency: "yes" })).toBe("fire-lane");
  });

  it("that traffic uses too keep the larger headroom of the two, and so remain roadways at 14 ft", () => {
    expect(kind({ highway: "service", fire_lane: "yes" })).toBe("roadway");
    const high = {
      ...FIRE,
      rules: FIRE.rules.map((rule) => (rule.kind === "fire-lane" ? { ...rule, minimumM: 15 * FT } : rule)),
    };
    expect(kind({ highway: "service", fire_lane: "yes" }, high)).toBe("fire-lane");
  });

  it("are roadways where the standard has no rule for them", () => {
    expect(kind({ highway: "service", service: "emergency_access" }, STANDARD)).toBe("roadway");
  });

  it("keep 20 ft free, or their own width where it is more", () => {
    const lane = { highway: "service", service: "emergency_access" };
    expect(widthOf(lane, FIRE)).toEqual({ ft: [20, 20, 26], basis: "assumed", source: "assumed for a fire lane" });
    expect(widthOf({ ...lane, width: "24 ft" }, FIRE)).toMatchObject({ ft: [24, 24, 24], basis: "measured" });
    expect(widthOf({ ...lane, width: "16 ft" }, FIRE)).toMatchObject({
      ft: [20, 20, 20],
      source: "width, at least a fire lane's",
    });
  });

  it("are checked where the data say which they are", () => {
    const checked = (properties: Properties): boolean =>
      !build({ roads: roads(properties) }, FIRE).surroundings.notChecked.includes("fire-lane");
    expect(checked({ highway: "service" })).toBe(false);
    expect(checked({ highway: "service", fire_lane: "no" })).toBe(true);
    expect(checked({ highway: "service", service: "emergency_access" })).toBe(true);
  });
});
