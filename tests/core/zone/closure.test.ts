import { expect, test } from "vitest";
import type { TreeSetting } from "../../../src/core/model/conflict.ts";
import type { RoadClass, SurroundingFeature } from "../../../src/core/model/surroundings.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { closureOf } from "../../../src/core/zone/closure.ts";
import { plannedStops } from "../../../src/core/zone/stops.ts";
import { zoneHazards } from "../../../src/core/zone/zone-hazards.ts";
import { planOfWork, type Work } from "./plan-of-work.ts";

const standard = usCommon();
const FOOT = 0.3048;
const MPH = 1.609344;

const road = (id: string, roadClass: RoadClass, lanes: number | null): [string, SurroundingFeature] => [
  id,
  {
    id,
    layer: "roads",
    name: id,
    kind: "roadway",
    geometry: { type: "Point", coordinates: [0, 0] },
    width: null,
    heightM: null,
    heightSource: null,
    roadClass,
    speedKmh: null,
    speedSource: null,
    lanes,
    voltageV: null,
  },
];
const ROADS = new Map([
  road("Alder Street", "local-residential", 2),
  road("Commerce Street", "major-arterial", 4),
  road("Quarry Road", "rural-two-lane", 2),
]);

const beside = (name: string, distanceM: number, mph: number | null): NonNullable<TreeSetting["road"]> => ({
  withId: name,
  name,
  distanceM,
  speedKmh: mph === null ? null : mph * MPH,
});

const tree = (setting: Partial<TreeSetting>): Work => ({ id: "a", at: [0, 0], radiusM: 4, setting });
const closure = (...settings: Partial<TreeSetting>[]) =>
  closureOf(plannedStops(planOfWork(settings.map(tree))), { roads: ROADS, standard, units: "us" });

test("a drop zone over an arterial of four lanes closes a lane: L = 12 x 35^2 / 60 = 245 ft, buffer 250 ft, signs 350 ft", () => {
  const { kind, roadName, taperM, bufferM, signSpacingM, note } = closure({ road: beside("Commerce Street", 1.5, 35) });
  expect([kind, roadName]).toEqual(["lane", "Commerce Street"]);
  expect(taperM! / FOOT).toBeCloseTo(245, 9);
  expect(bufferM! / FOOT).toBeCloseTo(250, 9);
  expect(signSpacingM.map((spacing) => Math.round(spacing / FOOT))).toEqual([350, 350, 350]);
  expect(note).toBe(
    "Draft: one lane closed, traffic merging, taper 245 ft, buffer 250 ft. Confirm with the road authority before any work.",
  );
});

test("on a two-lane street a lane is closed with the one-lane taper of 100 ft, and the walk with it", () => {
  const result = closure({ road: beside("Alder Street", 1.2, 25), walkDistanceM: 1 });
  expect(result.kind).toBe("lane-and-walk");
  expect(result.taperM! / FOOT).toBeCloseTo(100, 9);
  expect(result.bufferM! / FOOT).toBeCloseTo(155, 9);
  expect(result.note).toBe(
    "Draft: one lane for both ways with flaggers, taper 100 ft, buffer 155 ft, with a detour for walkers as accessible as the walk. Confirm with the road authority before any work.",
  );
});

test("every note is two sentences that a crew leader needs, without formulas, and ends with who confirms it", () => {
  const notes = [
    closure({}),
    closure({ walkDistanceM: 1 }),
    closure({ road: beside("Elm Street", 1, 25) }),
    closure({ road: beside("Commerce Street", 1.5, 35), walkDistanceM: 1 }),
    closure({ road: beside("Alder Street", 1, null), walkDistanceM: 1 }),
  ].map(({ note }) => note);
  for (const note of notes) {
    expect(note.endsWith(" Confirm with the road authority before any work.")).toBe(true);
    expect(note.split(/(?<=\.) /)).toHaveLength(2);
    expect(note).not.toMatch(/MUTCD|S\^2/);
  }
  // No such road is known: its lanes are not either.
  expect(notes[2]).toContain("lanes not known, taken as two");
});

test("work within 15 ft of the road but with its drop zone clear of it takes the shoulder: 8 x 45 / 3 = 120 ft", () => {
  // The drop zone of a 0.5 m crown reaches 3.5 m; the road is 4 m away, nearer than 4.57 m.
  const stops = plannedStops(planOfWork([{ ...tree({ road: beside("Quarry Road", 4, 45) }), radiusM: 0.5 }]));
  const result = closureOf(stops, { roads: ROADS, standard, units: "metric", hasLift: false });
  expect(result.kind).toBe("shoulder");
  expect(result.taperM! / FOOT).toBeCloseTo(120, 9);
  expect(result.signSpacingM.map((spacing) => Math.round(spacing / FOOT))).toEqual([500, 500, 500]);
});

test("the fastest road decides; an unknown speed gives no figures and says so", () => {
  expect(closure({ road: beside("Alder Street", 1, 25) }, { road: beside("Commerce Street", 2, 35) }).roadName).toBe(
    "Commerce Street",
  );
  const unknown = closure({ road: beside("Alder Street", 1, null) });
  expect([unknown.kind, unknown.taperM, unknown.bufferM, unknown.signSpacingM]).toEqual(["lane", null, null, []]);
  expect(unknown.note).toContain("speed of Alder Street is unknown");
});

test("work away from roads closes at most the walk, and never claims that a place is safe", () => {
  const yard = closure({});
  expect(yard.kind).toBe("none");
  expect(yard.note).toContain("as far as the data goes");
  const walk = closure({ walkDistanceM: 2 });
  expect(walk.kind).toBe("walk");
  expect(walk.note).toBe(
    "No roadway within 15 ft of the work, as far as the data goes; the walk needs a detour as accessible as itself. Confirm with the road authority before any work.",
  );
});

test("hazards name the voltage, the approach distance and who decides", () => {
  const conductor = {
    withId: "c",
    crownGapM: 1,
    trunkDistanceM: 3,
    bearingDeg: 0,
    heightM: 10,
    voltageV: 12_470,
    approachM: 10 * FOOT,
  };
  const stops = plannedStops(planOfWork([tree({ conductor, road: beside("Quarry Road", 1, 45), walkDistanceM: 1 })]));
  const day = stops[0]!.firstDay;
  const hazards = zoneHazards(
    { stops, crew: "line-clearance", hours: 7, hoursPerDay: 8, firstDay: day, lastDay: day },
    standard,
    "us",
  );
  expect(hazards[0]).toBe(
    "Overhead conductors at 1 tree, up to 12,470 V: people, tools and branches within 10 ft of a line are for line-clearance arborists only; the line's owner and local rules decide.",
  );
  expect(hazards[1]).toBe(
    "Traffic at up to 45 mph under or beside 1 tree: traffic control as the road authority approves it. Fast traffic.",
  );
  // Crown 4 m and 3 m more are 7 m, 23 ft.
  expect(hazards[2]).toContain("up to 23 ft from a trunk");
  expect(hazards[3]).toContain("walk or path lies in the drop zone of 1 tree");
});

test("where lines are not known, that is the hazard", () => {
  const stops = plannedStops(planOfWork([tree({ conductorsKnown: false })]));
  const work = { stops, crew: "line-clearance", hours: 7, hoursPerDay: 8, firstDay: 20_000, lastDay: 20_000 } as const;
  expect(zoneHazards(work, standard, "us")[0]).toContain("not known");
});
