import { type ComparedTree, likeSpecies, stemOf } from "./like-tree.ts";

/** Factors between the units that stems are kept in: centimeters, millimeters, inches and meters. */
const UNIT_FACTORS: readonly number[] = [10, 2.54, 25.4, 100];
/** So many trees must tell before stems are taken for kept in another unit. Our policy. */
const LEAST_TREES = 20;
/** How near to a factor the median must lie: trees grow a few percent between two inventories. Our policy. */
const NEAR_SHARE = 0.1;

/**
 * By how much the stems of a later inventory must be multiplied to be in the unit of the earlier one, where one of them was read in a wrong unit: the
 * factor that the median of trees with the same id and species tells; 1 where it tells none.
 */
export function stemUnitFactor(
  old: readonly ComparedTree[],
  now: readonly ComparedTree[],
  newRowOfId: ReadonlyMap<string, number>,
): number {
  const ratios = old.flatMap((tree) => {
    const row = newRowOfId.get(tree.id);
    const other = row === undefined ? undefined : now[row]!;
    if (other === undefined || likeSpecies(tree, other) === "other") return [];
    const [stem, newStem] = [stemOf(tree), stemOf(other)];
    return stem === null || newStem === null || newStem <= 0 ? [] : [stem / newStem];
  });
  if (ratios.length < LEAST_TREES) return 1;
  const median = ratios.sort((a, b) => a - b)[Math.floor(ratios.length / 2)]!;
  return factorNear(median) ?? 1;
}

/** Whether two measured stems differ as the same stem does in two units. */
export function isUnitSlip(one: ComparedTree, other: ComparedTree): boolean {
  const [stem, otherStem] = [stemOf(one), stemOf(other)];
  if (stem === null || otherStem === null || otherStem <= 0) return false;
  return factorNear(stem / otherStem) !== null;
}

const factorNear = (ratio: number): number | null =>
  UNIT_FACTORS.flatMap((factor) => [factor, 1 / factor]).find((factor) => Math.abs(ratio / factor - 1) <= NEAR_SHARE) ??
  null;
