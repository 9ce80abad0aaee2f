import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import type { Plan } from "../../src/core/model/plan.ts";
import { LAYERS } from "../../src/core/model/terms.ts";
import type { Zone } from "../../src/core/model/zone.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { buildZones } from "../../src/core/zone/build-zones.ts";
import { sidesOf } from "../../src/core/zone/order-of-work.ts";
import { isInLane, plannedStops, stopPositions } from "../../src/core/zone/stops.ts";
import { streetLines } from "../../src/core/zone/streets/street-lines.ts";
import { Streets } from "../../src/core/zone/streets/streets.ts";
import { walkingAmong } from "../../src/core/zone/walking.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";
import { openPlan } from "../../src/formats/plan/open-plan.ts";
import { leastLabeledLength } from "../core/zone/walk-bound.ts";

const folder = new URL("../../sample-geojson/", import.meta.url);
let plan: Plan;
let zones: Zone[];

beforeAll(async () => {
  const { files } = await makePlan(
    {
      revision: 1,
      files: LAYERS.map((layer) => ({
        layer,
        name: `${layer}.geojson`,
        bytes: new Uint8Array(readFileSync(new URL(`${layer}.geojson`, folder))),
        filter: null,
      })),
      columns: {},
      standardJson: null,
      options: {
        asOf: isoDate("2026-11-02"),
        units: "us",
        drive: "right",
        place: { hardinessZone: null, region: "US" },
      },
      crs: null,
      withZones: false,
    } as Parameters<typeof makePlan>[0],
    () => {},
  );
  plan = (await openPlan({ read: async (name) => files.get(name) ?? null } as Parameters<typeof openPlan>[0])).plan;
  zones = buildZones(plan, usCommon());
}, 300_000);

test("90 % of the zones are 0.75 to 1.1 crew-days, and each of the others says why", () => {
  const others = zones.filter(({ hours }) => hours < 6 || hours > 8.8);
  expect(zones.length).toBeGreaterThan(20);
  expect(others.length / zones.length).toBeLessThanOrEqual(0.1);
  for (const { hazards } of others) expect(hazards.join(" ")).toMatch(/An island of work|More than a crew-day/);
});

test("all walks together are within 1.15 times a length that none with the same rules can be shorter than", () => {
  // Bound: for each side of a street, of healthy and of diseased trees, Held and Karp's for a way with free ends, and the shortest tree that joins
  // them. It holds for the zone's trees, worked one side at a time and diseased ones last.
  const stopOf = new Map(plannedStops(plan).map((stop) => [stop.visit.visitId, stop]));
  const streets = new Streets(
    streetLines(plan.surroundings),
    [...stopOf.values()].map(({ tree }) => tree),
  );
  let walkM = 0;
  let leastM = 0;
  for (const zone of zones) {
    const stops = zone.visitIds.map((id) => stopOf.get(id)!);
    const walking = walkingAmong(stops, stopPositions(stops), streets);
    const sides = stops.some(isInLane) ? sidesOf(stops, walking) : stops.map(() => "");
    const least = leastLabeledLength(
      walking.distances(stops.map((_, at) => at)),
      stops.map(({ isDiseased }, at) => `${isDiseased} ${sides[at]!}`),
    );
    // A centimeter: the zone's walk is rounded to it.
    expect(zone.walkM).toBeGreaterThanOrEqual(least - 0.01);
    walkM += zone.walkM;
    leastM += least;
  }
  expect(walkM / leastM).toBeLessThanOrEqual(1.15);
});

test("one side of a street is done before another is begun, where the work takes a lane", () => {
  const stopOf = new Map(plannedStops(plan).map((stop) => [stop.visit.visitId, stop]));
  const streets = new Streets(
    streetLines(plan.surroundings),
    [...stopOf.values()].map(({ tree }) => tree),
  );
  for (const zone of zones) {
    const stops = zone.visitIds.map((id) => stopOf.get(id)!);
    if (!stops.some(isInLane)) continue;
    const sides = sidesOf(stops, walkingAmong(stops, stopPositions(stops), streets));
    const groups = stops.map(({ isDiseased }, at) => `${isDiseased} ${sides[at]!}`);
    const changes = groups.filter((group, at) => at > 0 && group !== groups[at - 1]).length;
    expect(changes, zone.name).toBe(new Set(groups).size - 1);
  }
});

test("one more tree changes its own zone and at most a few beside it; ids and names stay", () => {
  const stops = plannedStops(plan);
  for (const stop of [stops[3]!, stops[70]!, stops[150]!, stops[260]!]) {
    const row = plan.trees.length;
    const near = { lonDeg: stop.tree.lonDeg + 0.00008, latDeg: stop.tree.latDeg + 0.00003 };
    const prescription = plan.prescriptions[stop.tree.row]!;
    const visits = prescription.visits.map((one) => ({
      ...one,
      treeId: "new",
      treeRow: row,
      visitId: `new/${one.number}`,
    }));
    const after = buildZones(
      {
        ...plan,
        zones,
        trees: [...plan.trees, { ...stop.tree, ...near, row, id: "new" }],
        prescriptions: [...plan.prescriptions, { ...prescription, treeId: "new", treeRow: row, visits }],
        settings: [...plan.settings, { ...plan.settings[stop.tree.row]!, treeRow: row }],
      },
      usCommon(),
    );
    const workOf = (zone: Zone): string => [...zone.visitIds].sort().join();
    const had = new Set(zones.map(workOf));
    expect(after.filter((zone) => !had.has(workOf(zone))).length).toBeLessThanOrEqual(5);
    expect(after.map(({ zoneId }) => zoneId)).toEqual(expect.arrayContaining(zones.map(({ zoneId }) => zoneId)));
  }
});
