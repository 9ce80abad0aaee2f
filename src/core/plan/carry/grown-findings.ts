import type { Finding } from "../../model/finding.ts";
import type { Tree } from "../../model/trees.ts";
import { carryFinding } from "./carry-finding.ts";

/** How many trees a new inventory repeats from the one before, and since when their sizes have been reckoned on; nothing where it repeats none. */
export function grownFindings(trees: readonly Tree[]): Finding[] {
  const grown = trees.flatMap(({ inventoried }) => (inventoried === undefined ? [] : [inventoried.asOf]));
  if (grown.length === 0) return [];
  const [oldest] = [...grown].sort();
  return [
    carryFinding(
      "carry-grown",
      "info",
      "trees",
      null,
      String(grown.length),
      `${grown.length === 1 ? "1 tree has" : `${grown.length} trees have`} the very sizes of the inventory before, the oldest of a plan as of ${oldest}: they were grown by their species' rates since.`,
      "Measure trees anew where the work depends on it.",
    ),
  ];
}
