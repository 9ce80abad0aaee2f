import type { Catalog } from "./catalog.ts";
import { type CompiledPhrase, compilePhrase } from "./compile-phrase.ts";

/** The first word where it ends within the text: what follows is a space or a mark. */
const FIRST_WORD = /^([\p{L}'-]+)(?=[ \u00a0,])/u;

/** Gives the phrases that can fit a text, in the order of the catalog: those that begin with its first word, and those that begin with a slot or are one word. */
export function phraseBook(catalog: Catalog): (text: string) => readonly CompiledPhrase[] {
  const ready = catalog.phrases.map((phrase) => ({
    word: FIRST_WORD.exec(phrase[0])?.[1]?.toLowerCase() ?? null,
    compiled: compilePhrase(phrase, catalog),
  }));
  const byWord = new Map<string, readonly CompiledPhrase[]>();
  return (text) => {
    const word = FIRST_WORD.exec(text)?.[1]?.toLowerCase() ?? "";
    const before = byWord.get(word);
    if (before !== undefined) return before;
    const found = ready.filter((one) => one.word === null || one.word === word).map(({ compiled }) => compiled);
    byWord.set(word, found);
    return found;
  };
}
