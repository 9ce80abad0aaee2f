import type { Prescription } from "../../model/prescription.ts";
import type { ArboristWord, WordInForce } from "../../model/word.ts";
import type { WordsOfTree } from "../../model/words-in-force.ts";
import { formatDate } from "../../units/format-date.ts";
import type { DisplayUnits } from "../../units/format-length.ts";
import { LONGEST_WHY, writtenSentence } from "../../units/written-sentence.ts";
import { wordSays } from "./word-says.ts";

/** What the dating of visits found of words, by word id. */
export interface WordNotes {
  readonly breaks: ReadonlyMap<string, readonly string[]>;
  readonly idle: ReadonlyMap<string, string>;
}

/** The prescription with the words in force told, and its reason beginning with the decision that it follows. `isLapsed` tells words of visits that are done. */
export function withWords(
  prescription: Prescription,
  said: WordsOfTree,
  notes: WordNotes,
  isLapsed: (word: ArboristWord) => boolean,
  units: DisplayUnits,
): Prescription {
  const words = said.all.map((word): WordInForce => {
    const { wordId, kind, visitId, on, by, why } = word;
    return {
      wordId,
      kind,
      visitId,
      on,
      by,
      why,
      says: wordSays(word, units),
      breaks: [...(notes.breaks.get(wordId) ?? []), ...optionBreaks(word, said, prescription)],
      idle: isLapsed(word) ? "Its visit is done." : (notes.idle.get(wordId) ?? idleOption(word, said, prescription)),
    };
  });
  const decided = decidedBy(words);
  const why = decided === null ? prescription.why : `${decided} ${prescription.why}`;
  const cautions = [...words.filter(({ idle }) => idle === null).map(wordCaution), ...prescription.cautions];
  return { ...prescription, why, words, cautions };
}

/** A word with who, when and why, and the limits that it breaks: told first among the cautions, wherever a tree is described. */
const wordCaution = ({ by, on, says, why, breaks }: WordInForce): string =>
  [
    `Arborist's word, ${by}, ${formatDate(on)}: ${says}`,
    why.trim() === "" ? "" : `Why: ${writtenSentence(why, LONGEST_WHY)}`,
    ...breaks,
  ]
    .filter((part) => part !== "")
    .join(" ");

/** The limit that the chosen option breaks; it is told in its own words. */
function optionBreaks(word: ArboristWord, said: WordsOfTree, { options, chosen }: Prescription): string[] {
  if (word !== said.option || word.kind !== "option" || chosen === null) return [];
  const { remedy, ruledOutBy } = options[chosen]!;
  return remedy !== word.value.remedy || ruledOutBy === null ? [] : [`Breaks a limit: ${ruledOutBy}.`];
}

function idleOption(word: ArboristWord, said: WordsOfTree, { options, chosen }: Prescription): string | null {
  if (word.kind === "referral-resolved" || word.kind === "note") return null;
  if (word.kind !== "option") return null;
  if (word !== said.option) return "A later choice stands.";
  if (chosen !== null && options[chosen]!.remedy === word.value.remedy) return null;
  return options.length === 0
    ? "No conflict has to be cured."
    : "This option is not among those computed, or nothing is prescribed.";
}

/** Who decided what the prescription follows, in a sentence; null where the model decided. */
function decidedBy(words: readonly WordInForce[]): string | null {
  const active = words.filter(({ idle }) => idle === null);
  const stop = active.filter(({ kind, visitId }) => kind === "do-not-prune" && visitId === null).at(-1);
  const option = active.filter(({ kind }) => kind === "option").at(-1);
  if (stop !== undefined) return `${stop.by} decided on ${formatDate(stop.on)}: ${stop.says}`;
  return option === undefined ? null : `${option.by} chose this option on ${formatDate(option.on)}.`;
}
