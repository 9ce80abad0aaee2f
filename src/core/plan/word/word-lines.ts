import type { ArboristWord, TakenBack } from "../../model/word.ts";

/** Version of the layout of `words.jsonl`; a reader refuses a newer one. */
export const WORDS_FORMAT = 1;

type TakingBack = { readonly line: "taken-back"; readonly wordId: string } & Omit<TakenBack, "line">;

/**
 * The text of `words.jsonl`: a line that names the format, then a line a word and a line a taking-back, in the order they came; what was written
 * once stays as it is, so that each revision's file begins with that of the one before. Empty where nothing was said.
 */
export function wordsText(words: readonly ArboristWord[]): string {
  if (words.length === 0) return "";
  const takings = words.flatMap(({ wordId, takenBack }) => (takenBack === null ? [] : [{ wordId, takenBack }]));
  const placed = new Map(
    takings.flatMap((one) => (one.takenBack.line === undefined ? [] : [[one.takenBack.line, one]])),
  );
  const unplaced = takings.filter((one) => placed.get(one.takenBack.line ?? -1) !== one);
  const lines: object[] = [{ format: WORDS_FORMAT }];
  const writeTakings = (): void => {
    for (let one = placed.get(lines.length); one !== undefined; one = placed.get(lines.length)) {
      placed.delete(lines.length);
      lines.push(takingLine(one));
    }
  };
  for (const { takenBack: _, ...word } of words) {
    writeTakings();
    lines.push({ line: "word", ...word });
  }
  writeTakings();
  // A place past the end is no place: such lines come last.
  for (const one of [...placed.values(), ...unplaced]) lines.push(takingLine(one));
  return lines.map((line) => `${JSON.stringify(line)}\n`).join("");
}

function takingLine({ wordId, takenBack }: { wordId: string; takenBack: TakenBack }): TakingBack {
  const { on, by, why } = takenBack;
  return { line: "taken-back", wordId, on, by, why };
}

/** The words that a text holds. Throws SyntaxError on broken JSON and RangeError on a newer format, an unknown line or a taking-back of no word. */
export function readWords(text: string): ArboristWord[] {
  const [head, ...lines] = text.split("\n").filter((line) => line !== "");
  if (head === undefined) return [];
  const { format } = JSON.parse(head) as { format?: unknown };
  if (!(typeof format === "number" && format <= WORDS_FORMAT)) {
    throw new RangeError(
      `Expected words of format ${WORDS_FORMAT} or older, got ${String(format)}: use a newer Boughline`,
    );
  }
  const words = new Map<string, ArboristWord>();
  lines.forEach((text, at) => {
    const { line, ...rest } = JSON.parse(text) as { line: string };
    if (line === "word") {
      const word = rest as unknown as ArboristWord;
      words.set(word.wordId, { ...word, takenBack: null });
    } else if (line === "taken-back") {
      const { wordId, on, by, why } = rest as unknown as TakingBack;
      const word = words.get(wordId);
      if (word === undefined) throw new RangeError(`Expected a word to take back, got none with the id ${wordId}`);
      words.set(wordId, { ...word, takenBack: { on, by, why, line: at + 1 } });
    } else throw new RangeError(`Expected a line of words, got one of kind "${String(line).slice(0, 40)}"`);
  });
  return [...words.values()];
}
