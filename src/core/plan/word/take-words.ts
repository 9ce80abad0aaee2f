import type { ArboristWord } from "../../model/word.ts";
import type { WordPreview } from "./word-preview.ts";

/** The words with those that a preview shows as `take`, each taking-back on the next free line, and the trees that they are about. */
export function takeWords(
  before: readonly ArboristWord[],
  preview: readonly WordPreview[],
): { words: ArboristWord[]; treeIds: Set<string> } {
  const words = new Map(before.map((word) => [word.wordId, word]));
  let lines = before.length + before.filter(({ takenBack }) => takenBack !== null).length;
  const treeIds = new Set<string>();
  for (const { status, given } of preview) {
    if (status !== "take") continue;
    lines += 1;
    const { said } = given;
    if (said.type === "word") {
      words.set(said.word.wordId, said.word);
      treeIds.add(said.word.treeId);
      continue;
    }
    const { wordId, on, by, why } = said;
    const word = words.get(wordId)!;
    words.set(wordId, { ...word, takenBack: { on, by, why, line: lines } });
    treeIds.add(word.treeId);
  }
  return { words: [...words.values()], treeIds };
}
