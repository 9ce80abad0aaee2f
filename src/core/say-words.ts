import { measuredAfterWork } from "./measured-after-work.ts";
import type { Plan } from "./model/plan.ts";
import type { ArboristWord, ZonePlace } from "./model/word.ts";
import { wordsInForce } from "./model/words-in-force.ts";
import { OLDER_WORD } from "./plan/carry/older-word-findings.ts";
import { statesOfRecord } from "./plan/record/states-of-record.ts";
import { newBases } from "./plan/record/take-record.ts";
import type { WorkRecord } from "./plan/record/work-record.ts";
import { takeWords } from "./plan/word/take-words.ts";
import { wordFindings } from "./plan/word/word-findings.ts";
import type { WordPreview } from "./plan/word/word-preview.ts";
import { firstSeenOf } from "./record-work.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import { zonesAfterWords } from "./zones-after-words.ts";

/** A plan, with what was recorded and said of it. */
export interface SaidPlan {
  readonly plan: Plan;
  readonly record: WorkRecord;
  readonly words: readonly ArboristWord[];
}

/** A plan with words taken into it. */
export interface SaidWords extends SaidPlan {
  /** Trees whose figures are new, in plan order: those spoken of, and those whose view they opened. */
  readonly changedTreeIds: readonly string[];
}

/**
 * The next revision of a plan with the words that a preview shows as `take`. Trees that they are about are measured, prescribed for and dated anew, each
 * from the tree as it was before anything was said or recorded of it, so that taking a word back gives what was there before; all other trees stay.
 */
export function sayWords(
  { plan, record: before, words: earlier }: SaidPlan,
  preview: readonly WordPreview[],
  revision: number,
  surroundings: Surroundings,
  standard: Standard,
): SaidWords {
  const { words, treeIds } = takeWords(earlier, preview);
  const record: WorkRecord = { ...before, bases: [...before.bases, ...newBases(plan, before, treeIds)] };
  const rows = plan.trees.flatMap(({ id }, row) => (treeIds.has(id) ? [row] : []));
  const measured = measuredAfterWork(
    ...([{ ...plan, revision }, rows, statesOfRecord(record), firstSeenOf(plan, record)] as const),
    ...([surroundings, standard, wordsInForce(words)] as const),
  );
  const next = measured.plan;
  const changed = new Set(plan.trees.flatMap(({ id }, row) => (measured.rows.has(row) ? [id] : [])));
  const takings = new Set(
    preview.flatMap(({ status, given: { said } }) =>
      status === "take" && said.type === "take-back" ? [said.wordId] : [],
    ),
  );
  const back = words.filter(({ wordId }) => takings.has(wordId));
  const { zones, left } = zonesAfterWords(plan, next, changed, back, standard);
  const known = new Set(earlier.map(({ wordId }) => wordId));
  const told = words.map((word) => (known.has(word.wordId) ? word : withPlaces(word, words, left.get(word.treeId))));
  return {
    plan: {
      ...next,
      zones,
      findings: [
        ...plan.findings.filter(
          ({ code, value }) => !code.startsWith("word-") && !(code === OLDER_WORD && takings.has(value ?? "")),
        ),
        ...wordFindings(next, told),
      ],
    },
    record,
    words: told,
    changedTreeIds: [...changed],
  };
}

/** The last new word of a tree keeps the places that its visits left. */
function withPlaces(
  word: ArboristWord,
  words: readonly ArboristWord[],
  left: readonly ZonePlace[] | undefined,
): ArboristWord {
  const isLast = words.filter(({ treeId }) => treeId === word.treeId).at(-1) === word;
  if (left === undefined || !isLast) return word;
  const { takenBack, ...said } = word;
  return { ...said, left, takenBack };
}
