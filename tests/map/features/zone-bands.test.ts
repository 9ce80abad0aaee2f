import { expect, test } from "vitest";
import type { Zone } from "../../../src/core/model/zone.ts";
import { zoneBands } from "../../../src/map/features/zone-bands.ts";
import { DEFAULT_WORDS } from "../../../src/map/words.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";

const { plan } = smallOpenedPlan();

/** A zone's drawing counted by shape. */
function shapes(zone: Zone): Record<string, number> {
  const counts: Record<string, number> = { band: 0, link: 0, stop: 0, title: 0 };
  for (const { properties } of zoneBands({ ...plan, zones: [zone] }, DEFAULT_WORDS).features)
    counts[properties?.shape as string]! += 1;
  return counts;
}

/** Squares of 2 microdegrees around single trees: as many parts as trees. */
const around = (treeId: string) => {
  const { lonDeg, latDeg } = plan.trees.find((tree) => tree.id === treeId)!;
  const ring = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
    [-1, -1],
  ].map(([x, y]) => [lonDeg + x! * 1e-6, latDeg + y! * 1e-6]);
  return [ring];
};

test("a zone in one part is joined tree by tree, with one name", () => {
  const zone = plan.zones[1]!;
  const trees = new Set(zone.treeIds).size;
  const whole = {
    ...zone,
    area: {
      type: "MultiPolygon" as const,
      coordinates: [
        [
          [
            [-180, -80],
            [180, -80],
            [180, 80],
            [-180, 80],
            [-180, -80],
          ],
        ],
      ],
    },
  };
  // A tree of n trees has n - 1 edges.
  expect(shapes(whole)).toEqual({ band: trees - 1, link: 0, stop: trees, title: 1 });
});

test("parts are joined by links, one less than there are parts", () => {
  const zone = plan.zones[1]!;
  const ids = [...new Set(zone.treeIds)];
  const apart = { ...zone, area: { type: "MultiPolygon" as const, coordinates: ids.map(around) } };
  expect(shapes(apart)).toEqual({ band: 0, link: ids.length - 1, stop: ids.length, title: 1 });
});

test("a zone of one tree is a stop with a name, and one without trees is nothing", () => {
  const zone = plan.zones[0]!;
  expect(shapes({ ...zone, treeIds: zone.treeIds.slice(0, 1) })).toEqual({ band: 0, link: 0, stop: 1, title: 1 });
  expect(shapes({ ...zone, treeIds: [] })).toEqual({ band: 0, link: 0, stop: 0, title: 0 });
});

test("the name says crew and hours", () => {
  const zone = { ...plan.zones[0]!, name: "Elm Row 1", crew: "aerial" as const, hours: 7.25 };
  const title = zoneBands({ ...plan, zones: [zone] }, DEFAULT_WORDS).features.at(-1);
  // 7.25 is exact in binary; one decimal of it is 7.3 or 7.2 by the platform's rounding of ties.
  expect(title?.properties).toMatchObject({
    name: "Elm Row 1",
    detail: expect.stringMatching(/^aerial crew · 7\.[23] h$/),
  });
});
