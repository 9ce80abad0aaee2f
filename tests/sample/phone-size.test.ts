import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { LAYERS } from "../../src/core/model/terms.ts";
import type { Zone } from "../../src/core/model/zone.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { phoneHtml } from "../../src/formats/phone/phone-html.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";
import { openPlan } from "../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../src/formats/plan/plan-source.ts";
import { pageOf } from "../phone/phone-sample.ts";

/** Most bytes of a phone page of sixty trees, so that it goes by mail and opens at once on an old phone. */
const MOST_BYTES = 1_500_000;

test("a phone page of sixty trees of the sample town stays under 1.5 MB", async () => {
  const folder = new URL("../../sample-geojson/", import.meta.url);
  const made = await makePlan(
    {
      revision: 1,
      files: LAYERS.map((layer) => ({
        layer,
        name: `${layer}.geojson`,
        bytes: readFileSync(new URL(`${layer}.geojson`, folder)),
        filter: null,
      })),
      columns: {},
      standardJson: null,
      options: {
        asOf: isoDate("2026-11-02"),
        units: "us",
        drive: "right",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: true,
    },
    () => {},
  );
  const { plan } = await openPlan(memorySource(made.files));
  // The trees with the most drawings, from all over the town: more surroundings and views than a day's work has.
  const visits = plan.prescriptions
    .filter(({ visits: own }) => own.length > 0)
    .sort((a, b) => b.tasks.length - a.tasks.length)
    .slice(0, 60)
    .map(({ visits: own }) => own[0]!);
  const zones = plan.zones.slice(0, 6);
  const zone: Zone = {
    ...zones[0]!,
    visitIds: visits.map(({ visitId }) => visitId),
    treeIds: visits.map(({ treeId }) => treeId),
    area: { type: "MultiPolygon", coordinates: zones.flatMap(({ area }) => area.coordinates) },
  };
  const page = pageOf(plan, zone);
  expect(page.stops).toHaveLength(60);
  expect(page.stops.flatMap(({ sections }) => sections).length).toBeGreaterThan(100);
  const bytes = Buffer.byteLength(await phoneHtml(page));
  // Below this the page would hold no drawings at all.
  expect(bytes).toBeGreaterThan(200_000);
  expect(bytes).toBeLessThan(MOST_BYTES);
});
