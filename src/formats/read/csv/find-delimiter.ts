import { csvRecords } from "./csv-records.ts";

/** What separates the cells of a text, and where its records begin. */
export interface Delimiter {
  readonly mark: string;
  /** Offset behind a first line `sep=;`, else 0. */
  readonly start: number;
}

/** In the order of preference where two fit equally: a comma may be a decimal mark. */
const MARKS = ["\t", ";", "|", ","] as const;
const SAMPLE_CHARACTERS = 262_144;
const SAMPLE_RECORDS = 60;

/**
 * The delimiter of a text: that of a first line `sep=;` (a spreadsheet convention), else the mark that cuts most of the first records
 * into the same number of cells, two or more. A comma when none does.
 */
export function findDelimiter(text: string): Delimiter {
  const declared = /^sep=([\t;|,])\r?\n/i.exec(text.slice(0, 10));
  if (declared !== null) return { mark: declared[1]!, start: declared[0].length };
  const sample = text.slice(0, SAMPLE_CHARACTERS);
  let best: { mark: string; share: number } = { mark: ",", share: 0 };
  for (const mark of MARKS) {
    const share = shareOfEqualRecords(sample, mark);
    if (share > best.share) best = { mark, share };
  }
  return { mark: best.mark, start: 0 };
}

/** Share of the sample's records that have the commonest number of cells, quotes in order; 0 when that number is one. */
function shareOfEqualRecords(sample: string, mark: string): number {
  const counts = new Map<number, number>();
  let records = 0;
  for (const { cells, isDoubtful } of csvRecords([sample], mark)) {
    if (!isDoubtful) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
    records += 1;
    if (records === SAMPLE_RECORDS) break;
  }
  let commonest = 0;
  let most = 0;
  for (const [cells, count] of counts)
    if (count > most || (count === most && cells > commonest)) [commonest, most] = [cells, count];
  return commonest < 2 ? 0 : most / records;
}

/** A delimiter's name for a sentence. */
export const delimiterName = (mark: string): string =>
  mark === "\t" ? "tab" : mark === ";" ? "semicolon" : mark === "|" ? "bar" : "comma";
