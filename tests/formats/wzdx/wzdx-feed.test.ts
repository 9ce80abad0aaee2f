import { readdirSync, readFileSync } from "node:fs";
import { Ajv } from "ajv";
import { describe, expect, test } from "vitest";
import type { RoadAcross, SurroundingFeature } from "../../../src/core/model/surroundings.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildZones } from "../../../src/core/zone/build-zones.ts";
import { nameFault } from "../../../src/formats/wzdx/feed-metadata.ts";
import { wzdxFeed } from "../../../src/formats/wzdx/wzdx-feed.ts";
import { planOfWork, type Work } from "../../core/zone/plan-of-work.ts";

const fixtures = new URL("../../fixtures/wzdx-4.2/", import.meta.url);
const schemas = readdirSync(fixtures)
  .filter((name) => name.endsWith(".json"))
  .map((name) => JSON.parse(readFileSync(new URL(name, fixtures), "utf8")));
const ajv = new Ajv({ strict: false, allErrors: true, schemas });
// RFC 3339 section 5.6 in UTC, and an e-mail address as far as the schema's readers check one.
ajv.addFormat("date-time", /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/);
ajv.addFormat("email", /^[^@\s]+@[^@\s]+$/);
ajv.addFormat("uri", /^https?:/);
const validate = ajv.getSchema(
  "https://raw.githubusercontent.com/usdot-jpo-ode/wzdx/main/schemas/4.2/WorkZoneFeed.json",
)!;

const METADATA = { publisher: "City of Alder Falls", updated: "2026-11-02T15:00:00Z" };
const across = (oneway: -1 | 0 | 1): RoadAcross => ({
  oneway,
  laneM: 3.35,
  parking: { left: null, right: null },
  shoulderM: { left: null, right: null },
});

/** A street along the x axis, 400 m long, drawn from west to east. */
const street = (over: Partial<SurroundingFeature>): SurroundingFeature => ({
  id: "r",
  layer: "roads",
  name: "Alder Street",
  kind: "roadway",
  geometry: {
    type: "LineString",
    coordinates: [
      [10 - 100 / 71_695, 50],
      [10 + 300 / 71_695, 50],
    ],
  },
  width: null,
  heightM: null,
  heightSource: null,
  roadClass: "local-residential",
  speedKmh: 40.2336,
  speedSource: "speed",
  lanes: 2,
  voltageV: null,
  across: across(0),
  ...over,
});
/** A tree 5 m south of the middle of the street, 1.5 m from the lane. */
const works: Work[] = [
  {
    id: "a",
    at: [100, -5],
    radiusM: 4,
    setting: { road: { withId: "r", name: "Alder Street", distanceM: 1.5, speedKmh: 40.2336 }, walkDistanceM: 1 },
  },
];
const feedOf = (over: Partial<SurroundingFeature>, drive: "right" | "left" = "right") => {
  const plan = planOfWork(works, { surroundings: [street(over)] });
  const driven = { ...plan, options: { ...plan.options, drive } };
  const result = wzdxFeed({ ...driven, zones: buildZones(driven, usCommon()) }, METADATA);
  return { ...result, feed: JSON.parse(result.text) };
};

describe("the feed of a plan's closures", () => {
  test("is valid against the official schema, and the schema does refuse a broken one", () => {
    const { feed, events } = feedOf({});
    expect(events).toBe(2);
    expect(validate(feed), JSON.stringify(validate.errors)).toBe(true);
    const broken = structuredClone(feed);
    delete broken.features[0].properties.vehicle_impact;
    expect(validate(broken)).toBe(false);
    const noPublisher = structuredClone(feed);
    delete noPublisher.feed_info.publisher;
    expect(validate(noPublisher)).toBe(false);
  });

  test("with flaggers has an event for each direction, from where its own traffic comes", () => {
    const { feed } = feedOf({});
    const [own, other] = feed.features;
    expect(own.properties.vehicle_impact).toBe("flagging");
    // South of a street drawn eastward is its right: traffic on that side runs east.
    const lonOf = (feature: typeof own, at: number): number => feature.geometry.coordinates.at(at)[0];
    expect(lonOf(own, 0)).toBeLessThan(lonOf(own, -1));
    expect(lonOf(other, 0)).toBeGreaterThan(lonOf(other, -1));
    // Drop zone 100 +- 7 m; upstream the taper of 100 ft and the buffer of 155 ft, 77.72 m; downstream 50 ft, 15.24 m.
    expect((lonOf(own, 0) - 10) * 71_695).toBeCloseTo(100 - 7 - 77.72, 0);
    expect((lonOf(own, -1) - 10) * 71_695).toBeCloseTo(100 + 7 + 15.24, 0);
    expect(own.properties.lanes).toEqual([
      { order: 1, type: "general", status: "alternating-flow" },
      { order: 2, type: "sidewalk", status: "closed" },
    ]);
  });

  test("on four lanes is one event, merging away from the side of the work", () => {
    const right = feedOf({ lanes: 4, roadClass: "major-arterial" }).feed.features;
    expect(right.length).toBe(1);
    expect(right[0].properties.vehicle_impact).toBe("some-lanes-closed-merge-left");
    expect(right[0].properties.lanes.map((lane: { status: string }) => lane.status)).toEqual([
      "open",
      "closed",
      "closed",
    ]);
    const left = feedOf({ lanes: 4, roadClass: "major-arterial" }, "left").feed;
    expect(validate(left)).toBe(true);
    expect(left.features[0].properties.vehicle_impact).toBe("some-lanes-closed-merge-right");
    // Where one drives on the left, traffic on the south side runs west.
    expect(left.features[0].geometry.coordinates[0][0]).toBeGreaterThan(
      left.features[0].geometry.coordinates.at(-1)[0],
    );
  });

  test("never says that dates or places are verified, or that a day is set", () => {
    for (const { properties } of feedOf({}).feed.features) {
      expect(properties.is_start_date_verified || properties.is_end_date_verified).toBe(false);
      expect(properties.is_start_position_verified || properties.is_end_position_verified).toBe(false);
      expect(properties.core_details.description).toContain("the day is not set");
    }
  });

  test("leaves out, and tells, closures of roads without a center line or a name", () => {
    const ring = [
      [10, 50],
      [10.01, 50],
      [10.01, 50.01],
      [10, 50],
    ];
    const area = feedOf({ geometry: { type: "Polygon", coordinates: [ring] }, across: undefined } as never);
    expect(area.events).toBe(0);
    expect(area.findings.map(({ code, reason }) => [code, reason])).toEqual([
      [
        "wzdx-closure-left-out",
        "The closure of zone Alder Street 1 is not, or not wholly, in the feed: no center line of a road is within 30 m of 1 tree.",
      ],
    ]);
    expect(validate(area.feed)).toBe(true);
    expect(feedOf({ name: null }).findings[0]!.reason).toContain("has no name");
  });

  test("has the same ids every time", () => {
    expect(feedOf({}).text).toBe(feedOf({}).text);
    const ids = feedOf({}).feed.features.map(({ id }: { id: string }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
});

test.each(["", " ", "x", "TBD", "n/a", "Your City", "test", "unknown", "<publisher>", "Example Agency"])(
  "%j is no publisher",
  (name) => {
    expect(nameFault(name)).not.toBeNull();
    const plan = planOfWork([]);
    expect(() => wzdxFeed(plan, { ...METADATA, publisher: name })).toThrow("Publisher:");
  },
);

test("a city and a time in UTC are what a feed needs", () => {
  expect(nameFault("City of Alder Falls")).toBeNull();
  expect(() => wzdxFeed(planOfWork([]), { ...METADATA, updated: "yesterday" })).toThrow(
    "Expected an update time in UTC",
  );
  expect(validate(JSON.parse(wzdxFeed(planOfWork([]), METADATA).text))).toBe(true);
});
