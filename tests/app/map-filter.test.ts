import { expect, test } from "vitest";
import { mapFilter } from "../../src/app/map-filter.ts";
import { planIndex } from "../../src/app/plan-index.ts";
import { smallOpenedPlan } from "../map/small-opened-plan.ts";

const index = planIndex(smallOpenedPlan());
const [zone] = index.opened.plan.zones;
const some = index.trees.slice(0, 2);

test("in the list of trees the filter decides, and without one all trees keep their marks", () => {
  const at = { view: { name: "trees" }, zoneId: null, isAtZones: false } as const;
  expect(mapFilter(index, at, null)).toBeNull();
  expect(mapFilter(index, at, some)).toEqual({ treeIds: some.map((entry) => entry.tree.id) });
});

test("at the zones only trees in one keep their marks, in a zone its own, whatever the list is filtered by", () => {
  const zones = index.opened.plan.zones.map(({ zoneId }) => zoneId);
  expect(mapFilter(index, { view: { name: "zones" }, zoneId: null, isAtZones: true }, some)).toEqual({
    zoneIds: zones,
  });
  const open = { view: { name: "zone", zoneId: zone!.zoneId }, zoneId: zone!.zoneId, isAtZones: true } as const;
  expect(mapFilter(index, open, some)).toEqual({ treeIds: zone!.treeIds });
});

test("a tree picked beside the open zone keeps its mark", () => {
  const other = index.trees.find((entry) => entry.zone?.zoneId !== zone!.zoneId)!.tree.id;
  const at = { view: { name: "tree", treeId: other }, zoneId: zone!.zoneId, isAtZones: true } as const;
  expect(mapFilter(index, at, null)).toEqual({ treeIds: [...zone!.treeIds, other] });
});
