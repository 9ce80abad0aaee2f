/** A tile or a leaf directory in an archive: its number, where its bytes are from the start of its section, and for how many tiles it stands. */
export interface DirectoryEntry {
  readonly tileId: number;
  readonly offset: number;
  readonly length: number;
  /** 0 for a leaf directory. */
  readonly runLength: number;
}

/**
 * A PMTiles directory before compression. Entries come in ascending order of their ids. Throws RangeError for none, and for an entry without bytes,
 * which the format does not allow. Source: PMTiles version 3, "Directory Serialization".
 */
export function directoryBytes(entries: readonly DirectoryEntry[]): Uint8Array {
  if (entries.length === 0) throw new RangeError("Expected at least one entry in a directory, got none");
  const bytes: number[] = [];
  const put = (value: number) => putVarint(bytes, value);
  put(entries.length);
  let before = 0;
  for (const { tileId } of entries) {
    put(tileId - before);
    before = tileId;
  }
  for (const { runLength } of entries) put(runLength);
  for (const { length } of entries) {
    if (!(length > 0)) throw new RangeError(`Expected an entry with bytes, got a length of ${length}`);
    put(length);
  }
  let end = -1;
  for (const { offset, length } of entries) {
    put(offset === end ? 0 : offset + 1);
    end = offset + length;
  }
  return Uint8Array.from(bytes);
}

/** A whole number of at most 53 bits in base 128, lowest digit first, as Protocol Buffers write one. */
function putVarint(bytes: number[], value: number): void {
  let rest = value;
  while (rest >= 128) {
    bytes.push((rest % 128) + 128);
    rest = Math.floor(rest / 128);
  }
  bytes.push(rest);
}
