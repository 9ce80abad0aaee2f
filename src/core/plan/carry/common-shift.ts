import { type ComparedTree, likeSpecies } from "./like-tree.ts";
import { offsetM, type Shift } from "./near-pairs.ts";

/** So many trees of the same id and species must be shifted alike before their inventory is taken for shifted. Our policy. */
const LEAST_TREES = 20;
/** How near to the common shift half of them must lie, meters: the scatter of a hand-held receiver. Common practice, no source. */
const SCATTER_M = 1.5;
/** A smaller shift is nothing to speak of, a larger one is no datum's and no receiver's; meters. Our policy. */
const LEAST_SHIFT_M = 1;
const MOST_SHIFT_M = 25;

/**
 * Meters east and north by which an inventory lies off the one before it as a whole, as it does after a change of datum or of the base map: the median
 * of all trees with the same id and species. Null where there are few, where they scatter, or where it is under a meter.
 */
export function commonShift(
  old: readonly ComparedTree[],
  now: readonly ComparedTree[],
  newRowOfId: ReadonlyMap<string, number>,
): Shift | null {
  const offsets = old.flatMap((tree) => {
    const row = newRowOfId.get(tree.id);
    const offset = row === undefined ? null : offsetM(tree, now[row]!);
    const isNear = offset !== null && Math.hypot(offset.eastM, offset.northM) <= 2 * MOST_SHIFT_M;
    return isNear && likeSpecies(tree, now[row!]!) !== "other" ? [offset] : [];
  });
  if (offsets.length < LEAST_TREES) return null;
  const eastM = median(offsets.map((one) => one.eastM));
  const northM = median(offsets.map((one) => one.northM));
  const lengthM = Math.hypot(eastM, northM);
  if (lengthM < LEAST_SHIFT_M || lengthM > MOST_SHIFT_M) return null;
  const near = offsets.filter((one) => Math.hypot(one.eastM - eastM, one.northM - northM) <= SCATTER_M).length;
  return near * 2 >= offsets.length ? { eastM, northM } : null;
}

const median = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
