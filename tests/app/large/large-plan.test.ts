import { expect, test } from "vitest";
import { largePlanOf } from "../../../src/app/large/large-plan.ts";

const MANIFEST = {
  plan: "c05e",
  revision: 3,
  as_of: "2026-11-01",
  units: "metric",
  inputs: [
    { layer: "roads", file: "roads.geojson" },
    { layer: "trees", file: "city trees.geojson" },
  ],
  counts: {
    trees: 1_000_000,
    conflicts: 1_800_000,
    zones: 0,
    trees_by_urgency: { now: 12, watch: 5, __proto__: 9 },
    next_visits_by_crew: { aerial: 7, ground: "8" },
  },
};

test("what a manifest says of a large plan, without its records", () => {
  expect(largePlanOf(MANIFEST, "./plan/revisions/3/", null)).toEqual({
    address: "./plan/revisions/3/",
    name: "city trees.geojson",
    revision: 3,
    asOf: "2026-11-01",
    units: "metric",
    trees: 1_000_000,
    conflicts: 1_800_000,
    zones: 0,
    byUrgency: { now: 12, "next-window": 0, "this-cycle": 0, watch: 5, clear: 0 },
    byCrew: { ground: 0, aerial: 7, "line-clearance": 0, utility: 0 },
  });
  expect(largePlanOf(MANIFEST, "", "North side")!.name).toBe("North side");
});

test.each([null, 1, "plan", [], {}, { plan: "x" }, { plan: 4, revision: 1 }])("%j is no manifest", (manifest) => {
  expect(largePlanOf(manifest, "", null)).toBeNull();
});
