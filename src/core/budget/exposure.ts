import type { ConflictRecord, TreeSetting } from "../model/conflict.ts";
import type { RoadClass, SurroundingFeature } from "../model/surroundings.ts";
import type { Tree } from "../model/trees.ts";
import type { Exposure, RiskRules } from "../standard/risk-rules.ts";

/** Road classes of a plan's surroundings, by feature id. */
export type RoadClasses = ReadonlyMap<string, RoadClass>;

export function roadClasses(surroundings: readonly SurroundingFeature[]): RoadClasses {
  const classes = new Map<string, RoadClass>();
  for (const { layer, id, roadClass } of surroundings) {
    if (layer === "roads" && roadClass !== null) classes.set(id, roadClass);
  }
  return classes;
}

/** A road whose class nobody knows counts as a residential street. */
const UNKNOWN_ROAD: RoadClass = "local-residential";

/**
 * Who passes where a conflict is: of a road or a view its class, of several that fit the one with more weight. A view is that of the road nearest to the tree.
 */
export function conflictExposure(
  conflict: Pick<ConflictRecord, "kind" | "withId">,
  setting: TreeSetting,
  classes: RoadClasses,
  rules: RiskRules,
): Exposure {
  switch (conflict.kind) {
    case "roadway":
      return classes.get(conflict.withId) ?? UNKNOWN_ROAD;
    case "bus-route":
    case "fire-lane":
      return heavier(conflict.kind, classes.get(conflict.withId) ?? UNKNOWN_ROAD, rules);
    case "sight-triangle":
    case "curve":
    case "sign":
    case "signal":
      return roadNear(setting, classes);
    case "building-side":
    case "building-roof":
      return "building";
    default:
      return conflict.kind;
  }
}

/** Who is under a limb that falls: the road or walk that the crown reaches over, the one with more weight; else `elsewhere`. */
export function crownExposure(tree: Tree, setting: TreeSetting, classes: RoadClasses, rules: RiskRules): Exposure {
  const reachM = tree.radius.valueM;
  let most: Exposure = "elsewhere";
  if (setting.walkDistanceM !== null && setting.walkDistanceM <= reachM) most = heavier(most, "walkway", rules);
  if (setting.road !== null && setting.road.distanceM <= reachM)
    most = heavier(most, roadNear(setting, classes), rules);
  return most;
}

const roadNear = ({ road }: TreeSetting, classes: RoadClasses): Exposure =>
  road === null ? UNKNOWN_ROAD : (classes.get(road.withId) ?? UNKNOWN_ROAD);

const heavier = (one: Exposure, other: Exposure, rules: RiskRules): Exposure =>
  rules.exposureWeights[other] > rules.exposureWeights[one] ? other : one;
