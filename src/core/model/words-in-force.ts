import type {
  ArboristWord,
  DatesWord,
  DoNotPruneWord,
  InspectedWord,
  MeasurementWord,
  NoteWord,
  OptionWord,
  ReferralResolvedWord,
} from "./word.ts";

/** The words in force of one tree; where two say the same thing otherwise, the later one alone. */
export interface WordsOfTree {
  /** All of them, in the order they were said. */
  readonly all: readonly ArboristWord[];
  readonly option: OptionWord | null;
  /** One for each visit, and one for none. */
  readonly dates: readonly DatesWord[];
  readonly doNotPrune: readonly DoNotPruneWord[];
  readonly notes: readonly NoteWord[];
  /** One for each code. */
  readonly resolved: readonly ReferralResolvedWord[];
  /** In the order of their dates, as each is a state of the tree on its day. */
  readonly measurements: readonly MeasurementWord[];
  readonly inspected: readonly InspectedWord[];
}

/** Words in force by tree id. */
export type WordsByTree = ReadonlyMap<string, WordsOfTree>;

/** The words that were not taken back, by tree. Of words of one day the later line counts as the later word. */
export function wordsInForce(words: readonly ArboristWord[]): WordsByTree {
  const byTree = new Map<string, ArboristWord[]>();
  for (const word of words) {
    if (word.takenBack !== null) continue;
    const own = byTree.get(word.treeId);
    if (own === undefined) byTree.set(word.treeId, [word]);
    else own.push(word);
  }
  return new Map([...byTree].map(([treeId, own]) => [treeId, wordsOfTree(own)]));
}

/** Sorts the words of one tree, none of them taken back, into kinds. */
export function wordsOfTree(words: readonly ArboristWord[]): WordsOfTree {
  // Sorting is stable, so that words of one day keep the order of their lines.
  const all = [...words].sort((one, other) => (one.on < other.on ? -1 : one.on > other.on ? 1 : 0));
  const of = <Kind extends ArboristWord["kind"]>(kind: Kind) =>
    all.filter((word): word is Extract<ArboristWord, { kind: Kind }> => word.kind === kind);
  return {
    all,
    option: of("option").at(-1) ?? null,
    dates: lastOfEach(of("dates"), ({ visitId }) => visitId ?? ""),
    doNotPrune: lastOfEach(of("do-not-prune"), ({ visitId }) => visitId ?? ""),
    notes: of("note"),
    resolved: lastOfEach(of("referral-resolved"), ({ value }) => value.code ?? ""),
    measurements: of("measurement"),
    inspected: of("inspected"),
  };
}

function lastOfEach<Word>(words: readonly Word[], keyOf: (word: Word) => string): Word[] {
  return [...new Map(words.map((word) => [keyOf(word), word])).values()];
}
