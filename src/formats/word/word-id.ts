import type { ArboristWord } from "../../core/model/word.ts";
import { sha256 } from "../sha256.ts";

/** Id of a word, `w-` and 12 hexadecimal digits of the digest of all that it says, so that the same word given twice is the same word. */
export async function wordIdOf(
  word: Pick<ArboristWord, "treeId" | "visitId" | "on" | "by" | "why" | "kind" | "value">,
): Promise<string> {
  const { treeId, visitId, on, by, why, kind, value } = word;
  const text = JSON.stringify([treeId, visitId, on, by, why, kind, value]);
  return `w-${(await sha256(new TextEncoder().encode(text))).slice(0, 12)}`;
}
