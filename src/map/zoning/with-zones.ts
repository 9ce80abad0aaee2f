import type { FeatureCollection, MultiPolygon } from "geojson";
import type { Zone } from "../../core/model/zone.ts";
import { zoneFeatures } from "../../core/plan/plan-features.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";

/** An opened plan with other zones: in the plan, in their collection and on the trees. */
export function withZones(opened: OpenedPlan, zones: readonly Zone[]): OpenedPlan {
  const zoneOfTree = new Map(
    zones.flatMap(({ zoneId, treeIds }) => treeIds.map((treeId) => [treeId, zoneId] as const)),
  );
  const features = opened.trees.features.map((feature, row) => {
    const zoneId = zoneOfTree.get(opened.plan.trees[row]?.id ?? "") ?? null;
    const { properties } = feature;
    if (properties === null || properties.bough_zone === zoneId) return feature;
    return { ...feature, properties: { ...properties, bough_zone: zoneId } };
  });
  return {
    ...opened,
    plan: { ...opened.plan, zones },
    zones: zoneFeatures(zones) as FeatureCollection<MultiPolygon>,
    trees: { ...opened.trees, features },
  };
}
