/** One record of a delimited text. */
export interface CsvRecord {
  readonly cells: readonly string[];
  /** Line its first cell stands in, from 1. */
  readonly line: number;
  /** A quote in it stands where none belongs, so its cells are a guess. */
  readonly isDoubtful: boolean;
}

const QUOTE = '"';

/**
 * The records of a delimited text (RFC 4180), lines ending with LF, CR LF or CR in any mixture. A quoted cell may hold delimiters and
 * line ends, and a doubled quote in it is one. Records of one empty cell are passed over.
 *
 * A cell that opens with a quote but does not close with one is taken as it stands, quotes and all, up to the next delimiter, and the
 * record is doubtful; so one stray quote never swallows the lines below it. Linear in the text for all but contrived quotes.
 */
export function* csvRecords(text: string, delimiter: string): Generator<CsvRecord, void, undefined> {
  let at = 0;
  let line = 1;
  while (at < text.length) {
    const cells: string[] = [];
    const firstLine = line;
    let isDoubtful = false;
    for (;;) {
      const closing = text[at] === QUOTE ? closingQuote(text, at, delimiter) : -1;
      if (closing > 0) {
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
      if (text[at] !== delimiter) break;
      at += 1;
    }
    if (cells.length > 1 || cells[0] !== "") yield { cells, line: firstLine, isDoubtful };
    if (text[at] === "\r" && text[at + 1] === "\n") at += 1;
    at += 1;
    line += 1;
  }
}

/** Offset of the quote that closes the cell opened at `open`: one followed by a delimiter, a line end or the end; -1 when another comes first. */
function closingQuote(text: string, open: number, delimiter: string): number {
  let at = open;
  for (;;) {
    at = text.indexOf(QUOTE, at + 1);
    if (at === -1) return -1;
    if (text[at + 1] !== QUOTE) break;
    at += 1;
  }
  const after = text[skipPadding(text, at + 1, delimiter)];
  return after === undefined || after === delimiter || after === "\n" || after === "\r" ? at : -1;
}

/** Blanks between a closing quote and the delimiter, as some programs write them; at most 16 are looked at. */
function skipPadding(text: string, start: number, delimiter: string): number {
  let at = start;
  while (text[at] === " " && delimiter !== " " && at - start < 16) at += 1;
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
  let count = 0;
  for (let at = 0; at < cell.length; at += 1) {
    const code = cell.charCodeAt(at);
    if (code === 10 || (code === 13 && cell.charCodeAt(at + 1) !== 10)) count += 1;
  }
  return count;
}
