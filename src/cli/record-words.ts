import type { GivenWord, WordPreview } from "../core/plan/word/word-preview.ts";
import { wordSays } from "../core/plan/word/word-says.ts";
import type { DisplayUnits } from "../core/units/format-length.ts";
import type { CompletionFile } from "../formats/completion/read-completions.ts";
import type { RecordOutput } from "../formats/plan/record-plan.ts";
import { type RowSetAside, readWordsCsv } from "../formats/word/read-words-csv.ts";
import { inputError } from "./exit-codes.ts";

/** Tables of words that were read. */
export interface WordFiles {
  readonly given: readonly GivenWord[];
  readonly setAside: readonly RowSetAside[];
  /** Columns that nobody reads, by file, a sentence each. */
  readonly notRead: readonly string[];
}

/** What becomes of words, for people and programs. */
export interface ToldWords {
  readonly preview: readonly WordPreview[];
  readonly setAside: readonly RowSetAside[];
  readonly notRead: readonly string[];
}

export const toldWords = (preview: readonly WordPreview[], { setAside, notRead }: WordFiles): ToldWords => ({
  preview,
  setAside,
  notRead,
});

/** Reads tables of words. Throws CommandError (input refused) for one of which nothing can be used. */
export async function readWordFiles(files: readonly CompletionFile[]): Promise<WordFiles> {
  const given: GivenWord[] = [];
  const setAside: RowSetAside[] = [];
  const notRead: string[] = [];
  for (const { name, bytes } of files) {
    const read = await readWordsCsv(name, bytes);
    if ("faults" in read) throw inputError([`${name} cannot be used.`, ...read.faults].join("\n"));
    given.push(...read.given);
    setAside.push(...read.setAside);
    if (read.others.length > 0) notRead.push(`${name}: not read: ${read.others.join(", ")}.`);
  }
  return { given, setAside, notRead };
}

/** Words taken, for the history; nothing where there are none. */
export function wordsTaken(preview: readonly WordPreview[]): { words?: readonly object[] } {
  const words = preview.flatMap(({ status, given: { file, said } }) =>
    status !== "take"
      ? []
      : [
          said.type === "word"
            ? { file, word: said.word.wordId, by: said.word.by }
            : { file, taken_back: said.wordId, by: said.by },
        ],
  );
  return words.length === 0 ? {} : { words };
}

/** Of words taken or there already, so many lines are printed; --json has all. */
const MOST_LINES = 40;

/** Words in plain lines: those taken with the limits that they break, those set aside in full. */
export function wordLines(
  { preview, setAside, notRead }: ToldWords,
  taken: RecordOutput | null,
  units: DisplayUnits,
): string[] {
  if (preview.length + setAside.length + notRead.length === 0) return [];
  const taking = preview.filter(({ status }) => status === "take");
  const refused = preview.filter(({ status }) => status === "refused");
  const already = preview.length - taking.length - refused.length;
  return [
    "",
    `Arborists' words: ${taking.length} ${taken === null ? "to be taken" : "taken"}, ${already} there already, ${refused.length + setAside.length} set aside`,
    ...taking.slice(0, MOST_LINES).flatMap(({ given: { said } }) => {
      if (said.type === "take-back") return [`  ${said.wordId.padEnd(16)} taken back by ${said.by}, ${said.on}`];
      const { treeId, wordId, by, on } = said.word;
      return [
        `  ${treeId.padEnd(16)} ${wordSays(said.word, units)} (${by}, ${on}, ${wordId})`,
        ...(taken?.breaks.get(wordId) ?? []).map((limit) => `  ${"".padEnd(16)} ${limit}`),
      ];
    }),
    ...(taking.length > MOST_LINES ? [`  and ${taking.length - MOST_LINES} more`] : []),
    ...refused.map(({ given, reason }) => `  ${placeOf(given)}: ${reason}`),
    ...setAside.map(({ file, line, reason }) => `  ${file}, line ${line}: ${reason}`),
    ...notRead.map((sentence) => `  ${sentence}`),
  ];
}

const placeOf = ({ file, line }: GivenWord): string => (line === null ? file : `${file}, line ${line}`);

/** Words for programs. */
export const wordsJson = ({ preview, setAside, notRead }: ToldWords, taken: RecordOutput | null): object => ({
  words: preview.map(({ given: { file, line, said }, status, reason }) => ({
    file,
    line,
    status,
    reason,
    ...(said.type === "word"
      ? {
          word: said.word.wordId,
          tree: said.word.treeId,
          kind: said.word.kind,
          breaks: taken?.breaks.get(said.word.wordId) ?? [],
        }
      : { takes_back: said.wordId }),
  })),
  rows_set_aside: setAside,
  columns_not_read: notRead,
});
