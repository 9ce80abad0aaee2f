import type { AcceptanceRules } from "./notice-rules.ts";

/** How many of a zone's finished trees are checked: the standard's share rounded up, at least its least number, at most all. */
export const acceptanceSize = (trees: number, { share, leastTrees }: AcceptanceRules): number =>
  // 0.2 x 15 is 3.0000000000000004 in binary, which is 3 trees.
  Math.min(trees, Math.max(leastTrees, Math.ceil(share * trees - 1e-9)));
