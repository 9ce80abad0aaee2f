import { beforeAll, expect, test } from "vitest";
import { parseStandard } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { applyZoneEdit } from "../../../src/core/zone/edit/apply-zone-edit.ts";
import { zoneDesk } from "../../../src/core/zone/edit/zone-desk.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { zonePlan } from "../../../src/formats/plan/zone-plan.ts";

const bytes = (value: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(value));
const feature = (properties: object, geometry: object): object => ({ type: "Feature", properties, geometry });
const layer = (features: object[]): Uint8Array => bytes({ type: "FeatureCollection", features });

/** Twelve low maples 5 m north of a street that runs east, 20 m apart: a degree there is about 78,700 m east and 111,100 m north. */
const trees = layer(
  Array.from({ length: 12 }, (_, at) =>
    feature(
      { id: `t${at}`, species: "Acer rubrum", dbh: 30, height: 11, crown_base: 2, crown_spread: 9 },
      { type: "Point", coordinates: [-93 + (at * 20) / 78_700, 45 + 5 / 111_100] },
    ),
  ),
);
const road = {
  type: "LineString",
  coordinates: [
    [-93.001, 45],
    [-92.995, 45],
  ],
};
const roads = layer([feature({ name: "Alder Street", highway: "residential", width: 8 }, road)]);

let files: ReadonlyMap<string, Uint8Array>;
beforeAll(async () => {
  const made = await makePlan(
    {
      revision: 1,
      files: [
        { layer: "trees", name: "trees.geojson", bytes: trees, filter: null },
        { layer: "roads", name: "roads.geojson", bytes: roads, filter: null },
      ],
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
    },
    () => {},
  );
  files = (await zonePlan(memorySource(made.files), 2)).files;
});

/** The plan with its first zone halved, the new half locked, ordered by hand and dated. */
async function edited() {
  const { plan } = await openPlan(memorySource(files));
  const parsed = parseStandard(JSON.parse(new TextDecoder().decode(files.get("standard.json"))));
  if ("faults" in parsed) throw new Error(parsed.faults.join("; "));
  const desk = zoneDesk(plan, parsed.standard);
  const first = plan.zones[0]!;
  const half = first.treeIds.slice(0, 3);
  const split = applyZoneEdit(desk, plan.zones, {
    kind: "split",
    zoneId: first.zoneId,
    at: { by: "trees", treeIds: half },
  });
  const { zoneId } = split.changes.find(({ before }) => before === null)!;
  const dates = { start: isoDate("2026-11-10"), end: isoDate("2026-11-30") };
  const result = applyZoneEdit(desk, split.zones, {
    kind: "sequence",
    edits: [
      { kind: "order", zoneId, treeIds: [half[1]!, half[0]!, half[2]!] },
      { kind: "set-dates", zoneId, askedWindow: dates, plannedOn: isoDate("2026-11-12") },
      { kind: "lock", zoneId, isLocked: true },
    ],
  });
  expect(result.isRefused).toBe(false);
  return { zones: result.zones, zoneId, half };
}

test("zones edited by hand are written as they are and read back with what was set by hand", async () => {
  const { zones, zoneId, half } = await edited();
  const written = await zonePlan(memorySource(files), 3, { zones });
  const { plan } = await openPlan(memorySource(written.files));
  expect(plan.zones.map((zone) => [zone.zoneId, zone.treeIds])).toEqual(
    zones.map((zone) => [zone.zoneId, zone.treeIds]),
  );
  expect(plan.zones.find((zone) => zone.zoneId === zoneId)).toMatchObject({
    treeIds: [half[1], half[0], half[2]],
    isLocked: true,
    isByHand: true,
    isHandOrdered: true,
    plannedOn: "2026-11-12",
    askedWindow: { start: "2026-11-10", end: "2026-11-30" },
    windowStart: "2026-11-10",
    windowEnd: "2026-11-30",
  });
});

test("making zones again keeps zones put together by hand; making drafts anew keeps the locked one alone", async () => {
  const { zones, zoneId } = await edited();
  const source = memorySource((await zonePlan(memorySource(files), 3, { zones })).files);
  const again = (await openPlan(memorySource((await zonePlan(source, 4)).files))).plan.zones;
  expect(again).toHaveLength(zones.length);
  for (const zone of (await openPlan(source)).plan.zones) expect(again).toContainEqual(zone);
  const anew = (await openPlan(memorySource((await zonePlan(source, 4, { anew: true })).files))).plan.zones;
  expect(anew.find((zone) => zone.zoneId === zoneId)).toEqual(again.find((zone) => zone.zoneId === zoneId));
  expect(anew.filter(({ isByHand }) => isByHand === true).map((zone) => zone.zoneId)).toEqual([zoneId]);
  expect(anew.flatMap(({ treeIds }) => treeIds).sort()).toEqual(again.flatMap(({ treeIds }) => treeIds).sort());
});

test("a plan whose standard lacks a part of today is zoned with the common one, told once, and whole the next time", async () => {
  const old = JSON.parse(new TextDecoder().decode(files.get("standard.json")));
  delete old.views;
  const source = memorySource(new Map([...files, ["standard.json", bytes(old)]]));
  const first = await zonePlan(source, 3);
  expect(first.findings.filter(({ code }) => code === "standard-completed").map(({ value }) => value)).toEqual([
    "views",
  ]);
  expect(first.files.get("zones.geojson")).toEqual((await zonePlan(memorySource(files), 3)).files.get("zones.geojson"));
  const second = await zonePlan(memorySource(first.files), 4);
  expect(second.findings.filter(({ code }) => code === "standard-completed")).toHaveLength(1);
  expect(JSON.parse(new TextDecoder().decode(second.files.get("standard.json"))).views).toBeDefined();
});
