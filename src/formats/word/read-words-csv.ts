import type { ArboristWord } from "../../core/model/word.ts";
import type { GivenWord } from "../../core/plan/word/word-preview.ts";
import { withThousands } from "../../core/units/with-thousands.ts";
import { withoutFormulaGuard } from "../csv.ts";
import { type CsvRecord, csvRecords } from "../read/csv/csv-records.ts";
import { findDelimiter } from "../read/csv/find-delimiter.ts";
import { decodeText } from "../read/text/decode-text.ts";
import { findWordColumns } from "./word-columns.ts";
import { wordIdOf } from "./word-id.ts";
import { wordRow } from "./word-row.ts";

/** Rows that a table of words may have, and bytes. Our policy. */
const MOST_ROWS = 100_000;
const MOST_BYTES = 20_000_000;

/** A row that cannot be taken, with the reason. */
export interface RowSetAside {
  readonly file: string;
  readonly line: number;
  readonly reason: string;
}

/** Words of a table, rows set aside, and columns nobody reads; or why nothing of the file can be used, a sentence each. */
export type ReadWords =
  | {
      readonly given: readonly GivenWord[];
      readonly setAside: readonly RowSetAside[];
      readonly others: readonly string[];
    }
  | { readonly faults: readonly string[] };

/** Whether a file is a table of words: its first line has the columns `word` and `by`, and no `outcome`. */
export function isWordTable(bytes: Uint8Array): boolean {
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return false;
  try {
    const head =
      [...decodeText(bytes.subarray(0, 8192)).pieces()]
        .join("")
        .split(/[\r\n]/)
        .find((line) => line.trim() !== "" && !line.startsWith("sep=")) ?? "";
    if (head.trimStart().startsWith("{") || head.trimStart().startsWith("[")) return false;
    const { mark } = findDelimiter(head);
    const cells = [...csvRecords([`${head}\n`], mark)][0]?.cells ?? [];
    const names = cells.map((name) => withoutFormulaGuard(name).trim().toLowerCase());
    const { columns } = findWordColumns(names);
    return columns.has("word") && columns.has("by") && names.includes("word") && !names.includes("outcome");
  } catch {
    return false;
  }
}

/**
 * The words in a table written by hand: a row a word, columns by their names (`WORD_COLUMNS`), lengths with their units, any usual delimiter and encoding.
 * A row that cannot be read is set aside with its line; the others count. Ids are made of what a row says, where it names none.
 */
export async function readWordsCsv(file: string, bytes: Uint8Array): Promise<ReadWords> {
  if (bytes.length > MOST_BYTES) return { faults: [`The table is larger than ${withThousands(MOST_BYTES)} bytes.`] };
  let rows: CsvRecord[];
  try {
    const text = [...decodeText(bytes).pieces()].join("");
    const { mark, start } = findDelimiter(text);
    rows = [...csvRecords([text.slice(start)], mark)];
  } catch (error) {
    return { faults: [error instanceof Error ? error.message : String(error)] };
  }
  const [head, ...body] = rows;
  const { columns, others } = findWordColumns((head?.cells ?? []).map(withoutFormulaGuard));
  const missing = (["tree", "word", "on", "by", "why"] as const).filter((column) => !columns.has(column));
  if (missing.length > 0) return { faults: [`This is no table of words: it has no column ${missing.join(", ")}.`] };
  if (body.length > MOST_ROWS) {
    return {
      faults: [`The table has ${withThousands(body.length)} rows; at most ${withThousands(MOST_ROWS)} are read.`],
    };
  }
  const given: GivenWord[] = [];
  const setAside: RowSetAside[] = [];
  for (const { cells, line, isDoubtful } of body) {
    const row = isDoubtful
      ? { fault: "a quote stands where none belongs" }
      : wordRow(cells.map(withoutFormulaGuard), columns);
    if (row === null) continue;
    if ("fault" in row) setAside.push({ file, line, reason: `${row.fault}.` });
    else if (row.type === "take-back") given.push({ file, line, said: row });
    else {
      const wordId = row.id === "" ? await wordIdOf(row.word) : row.id;
      given.push({
        file,
        line,
        said: { type: "word", word: { wordId, ...row.word, takenBack: null } as ArboristWord },
      });
    }
  }
  return { given, setAside, others };
}
