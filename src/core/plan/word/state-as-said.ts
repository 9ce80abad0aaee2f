import type { MeasurementWord } from "../../model/word.ts";
import type { WordsOfTree } from "../../model/words-in-force.ts";
import type { TreeAfterWork } from "../record/tree-after-work.ts";
import { type Reestimate, treeAsMeasured } from "./tree-as-measured.ts";

/**
 * A tree as its work left it, with what arborists measured. A figure that work changed after it was measured is no longer true and stays as the work
 * left it; what was measured on the day of the work counts as measured after it.
 */
export function stateAsSaid(
  state: TreeAfterWork,
  said: WordsOfTree | undefined,
  reestimate: Reestimate,
): TreeAfterWork {
  if (said === undefined || said.measurements.length === 0) return state;
  const words = said.measurements.filter((word) => !isOutdated(word, state));
  return words.length === 0 ? state : { ...state, tree: treeAsMeasured(state.tree, words, reestimate) };
}

/** Where work says that a crown base is from it, and when. */
const BY_WORK = /^(?:measured by crew,|as prescribed, reported done) (\d{4}-\d\d-\d\d)$/;

function isOutdated({ on, value }: MeasurementWord, { doneOn, cleared, tree, treated }: TreeAfterWork): boolean {
  if (doneOn === null || on >= doneOn) return false;
  switch (value.of) {
    case "crown-base":
      return (BY_WORK.exec(tree.crownBase.source)?.[1] ?? "") > on;
    case "headroom":
      return [...cleared.values()].some((one) => one.measuredM !== null && one.on > on);
    case "defect":
      return (treated?.get(value.defect) ?? "") > on;
    default:
      return false;
  }
}
