import { withThousands } from "../../../core/units/with-thousands.ts";
import { pastLimit } from "../unreadable-file.ts";

/** One record of a delimited text. */
export interface CsvRecord {
  readonly cells: readonly string[];
  /** Line its first cell stands in, from 1. */
  readonly line: number;
  /** A quote in it stands where none belongs, so its cells are a guess. */
  readonly isDoubtful: boolean;
}

const QUOTE = '"';
/** Characters behind a cell that decide what it is: blanks between a closing quote and the delimiter, as some programs write them. */
const MOST_PADDING = 16;
/** Characters within which a quote must close, else it is none; a geometry of two million positions fits. Our policy. */
const LONGEST_QUOTED = 1 << 26;
/** Characters of one record; what is held in memory at once is twice as much at most. Our policy. */
const MOST_CHARACTERS = 1 << 27;

/**
 * The records of a delimited text (RFC 4180), lines ending with LF, CR LF or CR in any mixture. A quoted cell may hold delimiters and
 * line ends, and a doubled quote in it is one. Records of one empty cell are passed over. The text comes in pieces, cut anywhere, and only
 * what the record at hand needs is held.
 *
 * A cell that opens with a quote but does not close with one is taken as it stands, quotes and all, up to the next delimiter, and the
 * record is doubtful; so one stray quote never swallows the lines below it. Linear in the text for all but contrived quotes.
 */
export function* csvRecords(text: Iterable<string>, delimiter: string): Generator<CsvRecord, void, undefined> {
  const pieces = text[Symbol.iterator]();
  let buffer = "";
  let at = 0;
  let line = 1;
  let isWhole = false;
  for (;;) {
    const read = at < buffer.length || isWhole ? readRecord(buffer, at, line, delimiter, isWhole) : null;
    if (read === null) {
      // Twice as much each time, so that a long record is not begun anew for every piece of it.
      const wanted = Math.max(1, (buffer.length - at) * 2);
      const parts = [buffer.slice(at)];
      let length = parts[0]!.length;
      while (length < wanted && !isWhole) {
        const { done, value } = pieces.next();
        if (done === true) isWhole = true;
        else {
          parts.push(value);
          length += value.length;
        }
      }
      buffer = parts.join("");
      at = 0;
      if (isWhole && buffer === "") return;
      continue;
    }
    const { record, end, nextLine } = read;
    if (record.cells.length > 1 || record.cells[0] !== "") yield record;
    at = end;
    line = nextLine;
    if (isWhole && at >= buffer.length) return;
  }
}

/** The record at an offset, and where the next one begins; null where more text may change it. */
function readRecord(
  text: string,
  start: number,
  firstLine: number,
  delimiter: string,
  isWhole: boolean,
): { readonly record: CsvRecord; readonly end: number; readonly nextLine: number } | null {
  const cells: string[] = [];
  const mayBeUnclosed = isWhole || text.length - start > LONGEST_QUOTED;
  let at = start;
  let line = firstLine;
  let isDoubtful = false;
  for (;;) {
    const closing = text[at] === QUOTE ? closingQuote(text, at, delimiter) : -1;
    if (closing === text.length && !mayBeUnclosed) return null;
    if (closing > 0 && closing < text.length) {
      const cell = text.slice(at + 1, closing);
      line += lineEnds(cell);
      cells.push(cell.includes(QUOTE) ? cell.replaceAll('""', QUOTE) : cell);
      at = skipPadding(text, closing + 1, delimiter);
    } else {
      if (text[at] === QUOTE) isDoubtful = true;
      const end = endOfCell(text, at, delimiter);
      cells.push(text.slice(at, end));
      at = end;
    }
    if (at + MOST_PADDING >= text.length && !isWhole) {
      if (text.length - start > MOST_CHARACTERS)
        throw pastLimit(
          `a record of more than ${withThousands(MOST_CHARACTERS)} characters`,
          MOST_CHARACTERS,
          "Check the delimiter and the line ends.",
        );
      return null;
    }
    if (text[at] !== delimiter) break;
    at += 1;
  }
  if (text[at] === "\r" && text[at + 1] === "\n") at += 1;
  return { record: { cells, line: firstLine, isDoubtful }, end: at + 1, nextLine: line + 1 };
}

/**
 * Offset of the quote that closes the cell opened at `open`: one followed by a delimiter, a line end or the end; -1 when another comes first, and the length of
 * the text when none comes at all.
 */
function closingQuote(text: string, open: number, delimiter: string): number {
  let at = open;
  for (;;) {
    at = text.indexOf(QUOTE, at + 1);
    if (at === -1) return text.length;
    if (text[at + 1] !== QUOTE) break;
    at += 1;
  }
  const after = text[skipPadding(text, at + 1, delimiter)];
  return after === undefined || after === delimiter || after === "\n" || after === "\r" ? at : -1;
}

function skipPadding(text: string, start: number, delimiter: string): number {
  let at = start;
  while (text[at] === " " && delimiter !== " " && at - start < MOST_PADDING) at += 1;
  return at;
}

function endOfCell(text: string, start: number, delimiter: string): number {
  let at = start;
  while (at < text.length) {
    const letter = text[at]!;
    if (letter === delimiter || letter === "\n" || letter === "\r") break;
    at += 1;
  }
  return at;
}

function lineEnds(cell: string): number {
  if (!cell.includes("\n") && !cell.includes("\r")) return 0;
  let count = 0;
  for (let at = 0; at < cell.length; at += 1) {
    const code = cell.charCodeAt(at);
    if (code === 10 || (code === 13 && cell.charCodeAt(at + 1) !== 10)) count += 1;
  }
  return count;
}
