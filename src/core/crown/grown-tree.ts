import type { Size, Tree } from "../model/trees.ts";
import { crownOf } from "./crown.ts";
import { crownInYears } from "./growth.ts";

/** A tree some years on without any pruning; its sizes keep their basis and the width of their intervals. */
export function grownTree(tree: Tree, years: number, droopMPerYear: number): Tree {
  const crown = crownInYears(crownOf(tree), tree.traits, years, droopMPerYear, true);
  const widerM = tree.traits.radiusGrowthMPerYear * years;
  return {
    ...tree,
    height: moved(tree.height, crown.heightM - tree.height.valueM),
    crownBase: moved(tree.crownBase, crown.crownBaseM - tree.crownBase.valueM),
    radius: moved(tree.radius, widerM),
    radii: crown.radii,
    headroomOverRoadM:
      tree.headroomOverRoadM === null ? null : Math.max(0, tree.headroomOverRoadM - droopMPerYear * years),
  };
}

const moved = (size: Size, byM: number): Size => ({
  ...size,
  valueM: size.valueM + byM,
  lowM: Math.max(0, size.lowM + byM),
  highM: size.highM + byM,
});
