import type { Plan } from "../../model/plan.ts";
import type { Prescription } from "../../model/prescription.ts";
import type { Tree } from "../../model/trees.ts";
import type { ArboristWord } from "../../model/word.ts";
import { wordFault } from "./word-fault.ts";
import type { GivenWord, SaidWord, WordPreview } from "./word-preview.ts";

/**
 * What becomes of each given word, in the order given. Limits that a word breaks are no reason to refuse it; that nobody knows who said it, of which
 * tree, or why, is. Given again it is already taken. A word under an id that its tree bore in an earlier inventory is taken for the tree.
 */
export function previewWords(plan: Plan, words: readonly ArboristWord[], given: readonly GivenWord[]): WordPreview[] {
  const rows = new Map<string, number>();
  for (const [row, { formerly = [] }] of plan.trees.entries()) for (const id of formerly) rows.set(id, row);
  for (const [row, { id }] of plan.trees.entries()) rows.set(id, row);
  const known = new Map(words.map((word) => [word.wordId, word]));
  return given.map((one) => {
    const { said } = one;
    const preview = said.type === "word" ? judgeWord(one, said.word, plan, rows, known) : judgeTaking(one, said, known);
    if (preview.status === "take") {
      const taken = preview.given.said;
      if (taken.type === "word") known.set(taken.word.wordId, taken.word);
      else known.set(taken.wordId, { ...known.get(taken.wordId)!, takenBack: taken });
    }
    return preview;
  });
}

function judgeWord(
  given: GivenWord,
  word: ArboristWord,
  plan: Plan,
  rows: ReadonlyMap<string, number>,
  known: ReadonlyMap<string, ArboristWord>,
): WordPreview {
  const row = rows.get(word.treeId);
  if (row === undefined) return refused(given, `The plan has no tree ${word.treeId.slice(0, 80)}.`);
  const tree = plan.trees[row]!;
  const own = ofTree(word, tree);
  const before = known.get(own.wordId);
  if (before !== undefined) {
    const isSame = saysTheSame(before, own);
    if (!isSame) return refused(given, `Another word has the id ${own.wordId.slice(0, 80)}.`);
    return {
      given,
      status: "already-taken",
      reason:
        before.takenBack === null
          ? "The plan has it."
          : `It was taken back on ${before.takenBack.on} by ${before.takenBack.by}; say it anew on another day, or with an id of its own.`,
    };
  }
  const fault = wordFault(own, tree, plan.prescriptions[row]!, plan);
  if (fault !== null) return refused(given, fault);
  const bound = boundToVisit(own, plan.prescriptions[row]!);
  return { given: { ...given, said: { type: "word", word: bound } }, status: "take", reason: "It is taken." };
}

function judgeTaking(
  given: GivenWord,
  said: Extract<SaidWord, { type: "take-back" }>,
  known: ReadonlyMap<string, ArboristWord>,
): WordPreview {
  const word = known.get(said.wordId);
  if (word === undefined) return refused(given, `The plan has no word with the id ${said.wordId.slice(0, 80)}.`);
  if (word.takenBack !== null) {
    return {
      given,
      status: "already-taken",
      reason: `It was taken back on ${word.takenBack.on} by ${word.takenBack.by}.`,
    };
  }
  if (said.by.trim() === "") return refused(given, "Nobody says who takes it back.");
  if (said.on < word.on) return refused(given, `It was said on ${word.on}, and cannot be taken back before.`);
  return { given, status: "take", reason: "It is taken back." };
}

const refused = (given: GivenWord, reason: string): WordPreview => ({ given, status: "refused", reason });

/** The word under the id that its tree bears now. */
function ofTree(word: ArboristWord, { id }: Tree): ArboristWord {
  if (word.treeId === id) return word;
  const visitId = word.visitId === null ? null : id + word.visitId.slice(word.treeId.length);
  return { ...word, treeId: id, visitId };
}

/** Dates of no visit are those of the next one, and end with it. */
function boundToVisit(word: ArboristWord, { visits }: Prescription): ArboristWord {
  const next = visits[0];
  return word.kind === "dates" && word.visitId === null && next !== undefined
    ? { ...word, visitId: next.visitId }
    : word;
}

function saysTheSame(one: ArboristWord, other: ArboristWord): boolean {
  const isVisitAlike = one.visitId === other.visitId || (one.kind === "dates" && other.visitId === null);
  const textOf = ({ treeId, on, by, why, kind, value }: ArboristWord) =>
    JSON.stringify([treeId, on, by, why, kind, value]);
  return isVisitAlike && textOf(one) === textOf(other);
}
