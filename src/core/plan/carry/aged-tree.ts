import { grownTree } from "../../crown/grown-tree.ts";
import type { Size, Tree } from "../../model/trees.ts";
import { type IsoDate, yearsBetween } from "../../units/calendar.ts";

/** The tree as its inventory says it, without the growth since. */
export function treeAsInventoried(tree: Tree): Tree {
  if (tree.inventoried === undefined) return tree;
  const { inventoried, ...plain } = tree;
  const { asOf: _, ...sizes } = inventoried;
  return { ...plain, ...sizes };
}

/**
 * Whether a new inventory repeats what the one before it said of a tree's stem and of every size that was measured: then nobody has measured it anew.
 * Estimates do not count, as they follow the other trees of the inventory.
 */
export function isMeasuredAnew(before: Tree, now: Tree): boolean {
  const [was, is] = [treeAsInventoried(before), now];
  const isSame = (one: Size, other: Size): boolean =>
    one.basis === "measured" || other.basis === "measured"
      ? one.basis === other.basis && one.valueM === other.valueM
      : true;
  return !(
    was.dbhM === is.dbhM &&
    was.headroomOverRoadM === is.headroomOverRoadM &&
    isSame(was.height, is.height) &&
    isSame(was.crownBase, is.crownBase) &&
    isSame(was.radius, is.radius) &&
    (is.radius.basis !== "measured" || JSON.stringify(was.radii) === JSON.stringify(is.radii))
  );
}

/**
 * A tree that its inventory repeats from the one before, grown since the first plan that had its sizes: wider and taller by its species' rates, its low
 * limbs drooped. Basis and width of the intervals stay; the source tells the growth. As it is where no time has passed.
 */
export function agedTree(tree: Tree, since: IsoDate, asOf: IsoDate, droopMPerYear: number): Tree {
  const years = yearsBetween(since, asOf);
  if (!(years > 0)) return tree;
  const grown = grownTree(tree, years, droopMPerYear);
  const { height, crownBase, radius, radii, headroomOverRoadM } = tree;
  const told = (size: Size): Size => ({ ...size, source: `${size.source}, grown since ${since}` });
  return {
    ...grown,
    height: told(grown.height),
    crownBase: told(grown.crownBase),
    radius: told(grown.radius),
    inventoried: { asOf: since, height, crownBase, radius, radii, headroomOverRoadM },
  };
}
