import type { Tree } from "../model/trees.ts";

/** How far a tree has come in its life: what it bears grows less with age. */
export type LifeStage = "young" | "medium" | "mature" | "over-mature";

/** Share of its species' mature height from which a tree counts as mature; our policy. */
const MATURE_HEIGHT_SHARE = 0.75;
/** Share of its species' mature height below which a tree counts as young; our policy. */
const YOUNG_HEIGHT_SHARE = 0.5;
/** Measured stem in meters from which a tree of mature height counts as over-mature; our policy, as no inventory tells a veteran's age. */
const OVER_MATURE_DBH_M = 1;

/** The life stage that a tree's height against its species' mature height, and a large measured stem, tell. */
export function lifeStage(tree: Tree): LifeStage {
  if (isYoung(tree)) return "young";
  if (tree.height.valueM < MATURE_HEIGHT_SHARE * tree.traits.matureHeightM) return "medium";
  const isLarge = tree.dbhBasis === "measured" && tree.dbhM !== null && tree.dbhM >= OVER_MATURE_DBH_M;
  return isLarge ? "over-mature" : "mature";
}

/** Well under its species' mature height, so that an interim lift may serve until it has grown. */
export const isYoung = (tree: Tree, heightM = tree.height.valueM): boolean =>
  heightM < YOUNG_HEIGHT_SHARE * tree.traits.matureHeightM;
