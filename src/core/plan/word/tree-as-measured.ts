import type { Basis } from "../../model/terms.ts";
import type { Radii, Size, Tree, UnsaidFigures } from "../../model/trees.ts";
import type { MeasurementWord } from "../../model/word.ts";
import { LEAST_CROWN_DEPTH_M, MEASURED_BY_CREW_ERROR_M } from "../record/crew-measures.ts";

/** Gives a tree whose stem or height was measured, and that was another `before`, with the sizes that are still estimated made anew. */
export type Reestimate = (tree: Tree, before: Tree) => Tree;

/** Half of the 90 % interval of a height or radius measured in the field, as a share; the same as of one in an inventory. Our policy. */
const SIZE_ERROR_SHARE = 0.1;

/**
 * The tree with what was measured of it, in the order of the words, each with who measured it and when; what they took the place of is kept as `unsaid`.
 * A crown keeps at least 0.3 m of depth: what was measured last holds, and the other end gives way. Estimated sizes follow a new stem or height.
 */
export function treeAsMeasured(tree: Tree, words: readonly MeasurementWord[], reestimate: Reestimate): Tree {
  return words.reduce((measured, word) => withUnsaid(measured, asMeasured(measured, word, reestimate)), tree);
}

/** The tree as it is without what arborists measured. */
export function treeBeforeWords(tree: Tree): Tree {
  if (tree.unsaid === undefined) return tree;
  const { unsaid, ...plain } = tree;
  return { ...plain, ...unsaid };
}

function asMeasured(tree: Tree, { value, by, on }: MeasurementWord, reestimate: Reestimate): Tree {
  const source = `measured by ${by}, ${on}`;
  if (value.of === "planted") return { ...tree, planted: value.date };
  if (value.of === "defect") {
    const others = tree.defects.filter((one) => one !== value.defect);
    return { ...tree, defects: value.isThere ? [...others, value.defect] : others };
  }
  const { valueM } = value;
  switch (value.of) {
    case "headroom":
      return { ...tree, headroomOverRoadM: valueM };
    case "dbh":
      return reestimate({ ...tree, dbhM: valueM, dbhBasis: "measured" as Basis, ...noClass(tree) }, tree);
    case "height": {
      const height = measuredSize(valueM, valueM * SIZE_ERROR_SHARE, source);
      return withCrownBelow(reestimate({ ...tree, height }, tree), valueM);
    }
    case "crown-base": {
      const crownBase = measuredSize(valueM, MEASURED_BY_CREW_ERROR_M, source);
      const leastM = valueM + LEAST_CROWN_DEPTH_M;
      const { height } = tree;
      return height.valueM >= leastM
        ? { ...tree, crownBase }
        : { ...tree, crownBase, height: { ...height, valueM: leastM, highM: Math.max(height.highM, leastM) } };
    }
    case "crown-radius":
      return { ...tree, radius: measuredSize(valueM, valueM * SIZE_ERROR_SHARE, source), radii: scaled(tree, valueM) };
  }
}

/** A class of stems gives way to the figure; a tree that never had one gains no members. */
const noClass = (tree: Tree): Partial<Tree> => ({
  ...(tree.dbhLowM === undefined ? {} : { dbhLowM: null }),
  ...(tree.dbhHighM === undefined ? {} : { dbhHighM: null }),
});

function withCrownBelow(tree: Tree, heightM: number): Tree {
  const mostM = Math.max(0, heightM - LEAST_CROWN_DEPTH_M);
  const { crownBase } = tree;
  if (crownBase.valueM <= mostM) return tree;
  return { ...tree, crownBase: { ...crownBase, valueM: mostM, lowM: Math.min(crownBase.lowM, mostM) } };
}

/** Radii in the proportions they had, about the new mean. */
function scaled({ radii, radius }: Tree, valueM: number): Radii {
  if (!(radius.valueM > 0)) return { northM: valueM, eastM: valueM, southM: valueM, westM: valueM };
  const by = valueM / radius.valueM;
  const { northM, eastM, southM, westM } = radii;
  return { northM: northM * by, eastM: eastM * by, southM: southM * by, westM: westM * by };
}

const measuredSize = (valueM: number, errorM: number, source: string): Size => ({
  valueM,
  lowM: Math.max(0, valueM - errorM),
  highM: valueM + errorM,
  basis: "measured",
  source,
});

const FIGURES = [
  "height",
  "crownBase",
  "radius",
  "radii",
  "headroomOverRoadM",
  "dbhM",
  "dbhBasis",
  "dbhLowM",
  "dbhHighM",
  "planted",
  "defects",
] as const satisfies readonly (keyof UnsaidFigures)[];

/** The changed tree with the figures it had before any word, the first ones kept. */
function withUnsaid(before: Tree, after: Tree): Tree {
  const changed = FIGURES.filter((name) => after[name] !== before[name] && !(name in (before.unsaid ?? {})));
  if (changed.length === 0) return after;
  const were = Object.fromEntries(changed.map((name) => [name, before[name]])) as UnsaidFigures;
  return { ...after, unsaid: { ...before.unsaid, ...were } };
}
