import type { Finding } from "../../model/finding.ts";
import type { Size, Tree } from "../../model/trees.ts";
import type { MeasuredLength } from "../../model/word.ts";
import type { WordsByTree } from "../../model/words-in-force.ts";
import type { IsoDate } from "../../units/calendar.ts";
import { treeBeforeWords } from "../word/tree-as-measured.ts";
import { treeAsInventoried } from "./aged-tree.ts";
import { carryFinding } from "./carry-finding.ts";

/** Code of what {@link olderWordFindings} finds; its value is the word's id. */
export const OLDER_WORD = "carry-word-older";
/** Figures nearer than this are the same figure, as for what crews measured. Meters; common practice, no source. */
const SAME_FIGURE_M = 0.02;

/**
 * Measurements of arborists that a new inventory, measured on `measuredOn`, gives otherwise and later. The word holds until it is taken back, as every word does; both figures
 * are told. A figure that the inventory before had too is old news and says nothing. `beforeOf` gives a tree as the plan before had it, null for a new one.
 */
export function olderWordFindings(
  trees: readonly Tree[],
  beforeOf: (row: number) => Tree | null,
  words: WordsByTree,
  measuredOn: IsoDate,
): Finding[] {
  return trees.flatMap((tree, row) => {
    const before = beforeOf(row);
    const measurements = words.get(tree.id)?.measurements ?? [];
    if (before === null || measurements.length === 0) return [];
    const [was, is] = [inventoried(before), inventoried(tree)];
    return measurements.flatMap(({ wordId, value, by, on }) => {
      if (on >= measuredOn || value.of === "planted" || value.of === "defect") return [];
      const isM = measuredFigure(is, value.of);
      const wasM = measuredFigure(was, value.of);
      if (isM === null || isSame(isM, value.valueM) || (wasM !== null && isSame(isM, wasM))) return [];
      const [inventory, word] = [`${isM.toFixed(2)} m`, `${value.valueM.toFixed(2)} m`];
      return carryFinding(
        ...([OLDER_WORD, "warning", "trees", tree.id, wordId] as const),
        `The inventory's ${FIGURE_WORDS[value.of]} of ${inventory}, measured by ${measuredOn}, is newer than the ${word} that ${by} measured on ${on}, which is used until it is taken back.`,
        "Measure again where the two cannot both be true; take the word back where the inventory is right.",
      );
    });
  });
}

const FIGURE_WORDS: Readonly<Record<MeasuredLength, string>> = {
  height: "height",
  "crown-base": "crown base",
  "crown-radius": "crown radius",
  headroom: "headroom over the road",
  dbh: "trunk diameter",
};

const inventoried = (tree: Tree): Tree => treeAsInventoried(treeBeforeWords(tree));

/** A figure where the inventory measured it, in meters; null where it is estimated or missing. */
function measuredFigure({ height, crownBase, radius, headroomOverRoadM, dbhM, dbhBasis }: Tree, of: MeasuredLength) {
  const measured = ({ basis, valueM }: Size): number | null => (basis === "measured" ? valueM : null);
  switch (of) {
    case "height":
      return measured(height);
    case "crown-base":
      return measured(crownBase);
    case "crown-radius":
      return measured(radius);
    case "headroom":
      return headroomOverRoadM;
    case "dbh":
      return dbhBasis === "measured" ? dbhM : null;
  }
}

const isSame = (oneM: number, otherM: number): boolean => Math.abs(oneM - otherM) <= SAME_FIGURE_M;
