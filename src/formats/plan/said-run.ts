import type { ArboristWord } from "../../core/model/word.ts";
import { wordsInForce } from "../../core/model/words-in-force.ts";
import { wordsText } from "../../core/plan/word/word-lines.ts";
import { treesAsSaid } from "../../core/words-on-plan.ts";
import type { PlanSink } from "./plan-sink.ts";
import type { ReadRun } from "./read-run.ts";

/** A run that was read, with what arborists said of its trees: their sizes as measured, and the words for the stages. The words go to the sink as they are. */
export function saidRun(run: ReadRun, words: readonly ArboristWord[], sink: PlanSink): ReadRun {
  if (words.length === 0) return run;
  sink.write("words.jsonl", new TextEncoder().encode(wordsText(words)));
  const byTree = wordsInForce(words);
  return {
    ...run,
    trees: treesAsSaid(run.trees, byTree, run.facts.options),
    ground: { ...run.ground, words: byTree },
  };
}
