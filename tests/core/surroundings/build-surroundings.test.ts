import type { Geometry } from "geojson";
import { describe, expect, it } from "vitest";
import { stillWire } from "../../../src/core/crown/wire/swept-wire.ts";
import { readWireInto, WIRE_STRIDE } from "../../../src/core/crown/wire/wire-columns.ts";
import { LOAD_CASE_IDS } from "../../../src/core/model/load-cases.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import { features, type Layers, line, OPTIONS, type Points, point, polygon, STANDARD } from "../conflict/scene.ts";

const SQUARE: Points = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];
const STREET: Points = [
  [0, 0],
  [50, 0],
];
const build = (layers: Layers): ReturnType<typeof buildSurroundings> =>
  buildSurroundings(layers, {}, STANDARD, OPTIONS);
const FT = 0.3048;

describe("buildSurroundings", () => {
  it("takes a building's height, else its storeys, else assumes it, and labels which", () => {
    const { surroundings, findings } = build({
      buildings: features(
        "buildings",
        { geometry: polygon(SQUARE), properties: { height: "12 m" } },
        { geometry: polygon(SQUARE), properties: { "building:levels": "3" } },
        { geometry: polygon(SQUARE) },
        { geometry: polygon(SQUARE), properties: { height: 0, levels: 2 } },
        { geometry: polygon(SQUARE), properties: { location: "underground" } },
      ),
    });
    // Storeys of 10 ft, 20 ft assumed.
    expect(surroundings.features.map(({ heightM }) => heightM)).toEqual([
      12,
      3 * 10 * FT,
      20 * FT,
      2 * 10 * FT,
      20 * FT,
    ]);
    expect(surroundings.envelopes.map((one) => (one.type === "building" ? one.heightBasis : null))).toEqual([
      "measured",
      "estimated",
      "assumed",
      "estimated",
    ]);
    expect(findings.map(({ code }) => code)).toEqual(["building-underground", "building-height-assumed"]);
  });

  it("takes a road's width from its column, else from lanes, else from its class", () => {
    const { surroundings } = build({
      roads: features(
        "roads",
        { geometry: line(STREET), properties: { class: "collector", width: "30 ft" } },
        { geometry: line(STREET), properties: { class: "collector", lanes: 3 } },
        { geometry: line(STREET), properties: { class: "collector" } },
        { geometry: polygon(SQUARE) },
      ),
    });
    const widths = surroundings.features.map(({ width }) => width);
    expect(widths[0]).toMatchObject({ minM: 30 * FT, typicalM: 30 * FT, maxM: 30 * FT });
    // Three lanes of 9, 11 and 12 ft, and 8 ft of parking on both sides at most.
    expect(widths[1]!.minM).toBeCloseTo(27 * FT, 9);
    expect(widths[1]!.typicalM).toBeCloseTo(33 * FT, 9);
    expect(widths[1]!.maxM).toBeCloseTo((36 + 16) * FT, 9);
    expect(widths[2]).toMatchObject({ minM: 20 * FT, typicalM: 36 * FT, maxM: 40 * FT });
    expect(widths[3]).toBeNull();
  });

  it("understands map tags: what is a path, what runs above ground, what is fast", () => {
    const { surroundings, findings } = build({
      roads: features(
        "roads",
        { geometry: line(STREET), properties: { highway: "residential", maxspeed: "20 mph", name: "Elm" } },
        { geometry: line(STREET), properties: { highway: "primary", bridge: "yes", layer: "1" } },
        { geometry: line(STREET), properties: { highway: "cycleway" } },
        { geometry: line(STREET), properties: { highway: "service", tunnel: "building_passage" } },
        { geometry: line(STREET), properties: { highway: "tertiary", bus: "yes" } },
      ),
    });
    expect(surroundings.features.map(({ kind }) => kind)).toEqual(["roadway", null, "bikeway", "roadway", "bus-route"]);
    expect(surroundings.features[0]!.speedKmh).toBeCloseTo(32.18688, 9);
    expect(surroundings.features[0]!.speedSource).toBe("speed");
    expect(surroundings.features[3]!.speedSource).toContain("assumed");
    expect(findings.filter(({ code }) => code === "way-not-at-ground")).toHaveLength(1);
    expect(surroundings.notChecked).not.toContain("bus-route");
  });

  it("does not widen a centerline that runs on a surveyed traveled way", () => {
    const { surroundings } = build({
      roads: features(
        "roads",
        {
          geometry: polygon([
            [0, -5],
            [100, -5],
            [100, 5],
            [0, 5],
          ]),
        },
        {
          geometry: line([
            [0, 0],
            [50, 0],
            [100, 0],
          ]),
          properties: { class: "local" },
        },
        {
          geometry: line([
            [0, 40],
            [50, 40],
            [100, 40],
          ]),
          properties: { class: "local" },
        },
      ),
    });
    expect(surroundings.envelopes.map((one) => one.type === "way" && one.isCovered)).toEqual([false, true, false]);
  });

  it("sets aside what a layer has no use for and keeps ids unique", () => {
    const { surroundings, setAside } = build({
      buildings: features(
        "buildings",
        { geometry: point(0, 0) },
        { geometry: polygon(SQUARE), properties: { id: 7 } },
        { geometry: polygon(SQUARE), properties: { id: 7 } },
        { geometry: polygon(SQUARE) },
      ),
    });
    expect(setAside.map(({ ordinal, finding }) => [ordinal, finding.code])).toEqual([[0, "geometry-type-unused"]]);
    expect(surroundings.features.map(({ id }) => id)).toEqual(["7", "7~2", "buildings.geojson#3"]);
  });

  it("leaves out conductors that are not overhead and spreads heights and sags over the spans", () => {
    const { surroundings, findings } = build({
      conductors: features(
        "conductors",
        {
          geometry: line([
            [0, 0],
            [40, 0],
            [60, 0],
          ]),
          properties: { voltage: "12 kV", attachment_height_1: 10, attachment_height_2: 13, sag: 0.8 },
        },
        { geometry: line(STREET), properties: { location: "underground", voltage: "11000" } },
        { geometry: point(0, 0), properties: { power: "pole" } },
      ),
    });
    const shapes = [...surroundings.planes.values()][0]!;
    const wire = stillWire(0, 0, 0, 0, 0, 0, 0);
    // Two thirds of the way 10 + 3 * 40 / 60 = 12 m; the shorter span sags 0.8 * (20 / 40)^2 = 0.2 m. The first wire of each is the one at rest.
    readWireInto(wire, shapes.wires, 0);
    expect([wire.az, wire.bz, wire.stillSagM, wire.swingRad].map((value) => value.toFixed(6))).toEqual([
      "10.000000",
      "12.000000",
      "0.800000",
      "0.000000",
    ]);
    readWireInto(wire, shapes.wires, shapes.spanWire[1]! * WIRE_STRIDE);
    expect(wire.bz).toBeCloseTo(13, 6);
    expect(wire.stillSagM).toBeCloseTo(0.2, 6);
    // The rule asks for the wire at rest, at 60 F and at 130 F.
    expect([...shapes.wireCase].map((at) => LOAD_CASE_IDS[at])).toEqual([
      "still",
      "maximum-temperature",
      "still",
      "maximum-temperature",
    ]);
    expect(surroundings.features[0]!.wire!.spanIds).toEqual(["conductors.geojson#0/1", "conductors.geojson#0/2"]);
    expect(surroundings.features.map(({ kind }) => kind)).toEqual(["conductor", null, null]);
    expect(findings.map(({ code }) => code)).toEqual([
      "conductor-not-overhead",
      "conductor-type-assumed",
      "service-drops-not-in-data",
    ]);
  });

  it("sets aside what is too wide for a city", () => {
    const world: Geometry = {
      type: "LineString",
      coordinates: [
        [-90, 41],
        [-70, 41],
      ],
    };
    const { setAside, surroundings } = build({ conductors: features("conductors", { geometry: world }) });
    expect(setAside.map(({ finding }) => finding.code)).toEqual(["feature-too-wide"]);
    expect(surroundings.planes.size).toBe(0);
  });

  it("knows stop and yield signs from a bus stop and a warning of a stop", () => {
    const crossing: Points = [
      [-300, 0],
      [0, 0],
      [300, 0],
    ];
    const recorded = (kind: string): (string | null)[] =>
      build({
        roads: features(
          "roads",
          { geometry: line(crossing), properties: { class: "collector" } },
          {
            geometry: line([
              [0, 0],
              [0, -80],
            ]),
            properties: { class: "local" },
          },
        ),
        signs: features("signs", { geometry: point(6, -14), properties: { kind, facing: "S" } }),
      })
        .surroundings.sight.filter(
          ({ kind: one, controlSource }) => one === "sight-triangle" && !controlSource.startsWith("assumed"),
        )
        .map(({ control }) => control);
    for (const kind of ["stop", "R1-1", "US:R1-1", "Stop sign"]) expect(recorded(kind)).toEqual(["stop", "stop"]);
    for (const kind of ["yield", "R1-2", "give_way"]) expect(recorded(kind)).toEqual(["yield", "yield"]);
    for (const kind of ["bus_stop", "Stop Ahead", "no stopping", "Yield Ahead"]) expect(recorded(kind)).toEqual([]);
  });

  it("says what these layers leave unchecked", () => {
    expect(build({}).surroundings.notChecked).toEqual([
      "conductor",
      "roadway",
      "bus-route",
      "fire-lane",
      "sight-triangle",
      "curve",
      "sign",
      "signal",
      "walkway",
      "bikeway",
      "building-side",
      "building-roof",
    ]);
    const all = build({
      buildings: [],
      roads: features("roads", { geometry: line(STREET), properties: { class: "local", bus: "no" } }),
      paths: [],
      signs: [],
      signals: [],
      conductors: [],
    });
    expect(all.surroundings.notChecked).toEqual(["fire-lane"]);
  });
});
