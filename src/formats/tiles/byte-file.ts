/** A file whose parts are read as they are needed. */
export interface ByteFile {
  readonly size: number;
  /** The bytes from one place to before another. */
  read(from: number, to: number): Uint8Array;
}

/** A file held in memory. */
export const memoryFile = (bytes: Uint8Array): ByteFile => ({
  size: bytes.length,
  read: (from, to) => bytes.subarray(from, to),
});

/** A line of a file, without its line end: where its bytes begin, how many they are, and what it says. */
export interface Line {
  readonly offset: number;
  readonly length: number;
  readonly text: string;
}

const CHUNK_BYTES = 4 * 2 ** 20;
const LINE_END = 10;

/**
 * The lines of a UTF-8 file one by one, of which only a few million bytes are held at a time. A last line may lack its end. Throws TypeError for bytes that are
 * no UTF-8.
 */
export function* linesOf(file: ByteFile): Generator<Line, void, undefined> {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let from = 0;
  let readBytes = CHUNK_BYTES;
  while (from < file.size) {
    const isLast = from + readBytes >= file.size;
    const chunk = file.read(from, Math.min(file.size, from + readBytes));
    let start = 0;
    for (let end = chunk.indexOf(LINE_END); end !== -1; end = chunk.indexOf(LINE_END, start)) {
      yield { offset: from + start, length: end - start, text: decoder.decode(chunk.subarray(start, end)) };
      start = end + 1;
    }
    if (isLast && start < chunk.length)
      yield { offset: from + start, length: chunk.length - start, text: decoder.decode(chunk.subarray(start)) };
    if (isLast) return;
    // A line longer than what was read is read again, twice as far.
    readBytes = start === 0 ? readBytes * 2 : CHUNK_BYTES;
    from += start;
  }
}

/** The text of a part of a file. */
export const textAt = (file: ByteFile, offset: number, length: number): string =>
  new TextDecoder().decode(file.read(offset, offset + length));

/** The features of a collection that has one feature a line, as a plan's own files have; what stands around them is passed over. */
export function* featureLines(file: ByteFile): Generator<Line, void, undefined> {
  for (const line of linesOf(file)) {
    if (!line.text.startsWith('{"type":"Feature",')) continue;
    const isFollowed = line.text.endsWith(",");
    yield isFollowed ? { ...line, length: line.length - 1, text: line.text.slice(0, -1) } : line;
  }
}
