import { sizesAsMeasured } from "./inventory/sizes-as-measured.ts";
import type { Conflict, TreeSetting } from "./model/conflict.ts";
import type { Place, PlanOptions } from "./model/plan.ts";
import type { Prescription } from "./model/prescription.ts";
import type { Tree } from "./model/trees.ts";
import type { ArboristWord } from "./model/word.ts";
import { type WordsByTree, type WordsOfTree, wordsOfTree } from "./model/words-in-force.ts";
import { numberOf } from "./plan/record/tree-after-work.ts";
import { conflictsAsSaid } from "./plan/word/conflicts-as-said.ts";
import { type Reestimate, treeAsMeasured } from "./plan/word/tree-as-measured.ts";
import { withWords } from "./plan/word/words-on-prescription.ts";
import { visitsAsSaid } from "./schedule/said/visits-as-said.ts";
import { SeasonBook } from "./schedule/season-book.ts";
import type { Standard } from "./standard/standard.ts";

/** Makes sizes anew after a stem or a height was measured; one serves a run. */
export const reestimateAt = (place: Place): Reestimate => sizesAsMeasured(place);

/** The trees with what arborists measured of them; those that nobody measured are given back as they are. */
export function treesAsSaid(trees: readonly Tree[], words: WordsByTree, { place }: PlanOptions): readonly Tree[] {
  if (words.size === 0) return trees;
  const reestimate = reestimateAt(place);
  return trees.map((tree) => treeAsMeasured(tree, words.get(tree.id)?.measurements ?? [], reestimate));
}

/** All conflicts as those who inspected them found them, in their order. */
export function allConflictsAsSaid(
  conflicts: readonly Conflict[],
  words: WordsByTree,
  standard: Standard,
  { asOf }: PlanOptions,
): readonly Conflict[] {
  if (words.size === 0) return conflicts;
  return conflicts.flatMap((conflict) => {
    const said = words.get(conflict.treeId);
    return said === undefined ? conflict : conflictsAsSaid([conflict], said, standard, asOf);
  });
}

/** The words that still hold for a tree whose visits up to a number are done; all of them where none is. */
export function heldWords(said: WordsOfTree, lastDone: number): WordsOfTree {
  const held = said.all.filter((word) => !isLapsed(word, lastDone));
  return held.length === said.all.length ? said : wordsOfTree(held);
}

const isLapsed = ({ kind, visitId }: ArboristWord, lastDone: number): boolean =>
  visitId !== null &&
  (kind === "option" || kind === "dates" || kind === "do-not-prune") &&
  numberOf(visitId) > 0 &&
  numberOf(visitId) <= lastDone;

/** The prescriptions with dates as they were given and visits called off, and what was said told on each. `lastDoneOf` is the last visit done, by tree. */
export function prescriptionsAsSaid(
  trees: readonly Tree[],
  prescriptions: readonly Prescription[],
  conflicts: readonly Conflict[],
  settings: readonly TreeSetting[],
  words: WordsByTree,
  standard: Standard,
  options: PlanOptions,
  lastDoneOf: (treeId: string) => number = () => 0,
): Prescription[] {
  if (words.size === 0) return [...prescriptions];
  const own = new Map<string, Conflict[]>();
  for (const conflict of conflicts) {
    if (!words.has(conflict.treeId)) continue;
    own.set(conflict.treeId, [...(own.get(conflict.treeId) ?? []), conflict]);
  }
  const book = new SeasonBook(standard, options);
  return prescriptions.map((prescription, at) => {
    const said = words.get(prescription.treeId);
    if (said === undefined) return prescription;
    const tree = trees[at]!;
    const lastDone = lastDoneOf(tree.id);
    const { dates, doNotPrune } = heldWords(said, lastDone);
    const dated = visitsAsSaid({
      tree,
      prescription,
      dates,
      doNotPrune,
      all: own.get(tree.id) ?? [],
      isChecked: (settings[at]?.notChecked.length ?? 1) === 0,
      seasons: book.windowsOf(tree),
      standard,
      options,
    });
    return withWords(dated.prescription, said, dated, (word) => isLapsed(word, lastDone), options.units);
  });
}
