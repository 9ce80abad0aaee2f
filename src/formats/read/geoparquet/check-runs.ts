import { damaged } from "../unreadable-file.ts";

/**
 * Checks runs in Parquet's hybrid of run lengths and packed bits: none is longer than the values left to fill, except for the padding of
 * the last packed one, and none leaves the bytes. Gives the offset behind them. `largest` is the largest value, which says how many bits
 * each takes; `length` the bytes of the runs, null where four bytes before them say so. Runs may end before `values`: nulls take none.
 */
export function checkRuns(
  bytes: Uint8Array,
  start: number,
  largest: number,
  values: number,
  length: number | null,
): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = start;
  let size = length;
  if (size === null) {
    if (at + 4 > view.byteLength) throw broken();
    size = view.getUint32(at, true);
    at += 4;
  }
  const end = at + size;
  if (end > view.byteLength) throw broken();
  const width = Math.ceil(Math.log2(largest + 1));
  let seen = 0;
  while (at < end && seen < values) {
    let header = 0;
    let shift = 0;
    for (;;) {
      if (at >= end || shift > 28) throw broken();
      const byte = bytes[at]!;
      at += 1;
      header += (byte & 0x7f) * 2 ** shift;
      if (byte < 0x80) break;
      shift += 7;
    }
    const isPacked = header % 2 === 1;
    const count = Math.floor(header / 2) * (isPacked ? 8 : 1);
    if (count > values - seen + (isPacked ? 7 : 0) + PADDING) throw broken();
    at += isPacked ? (count / 8) * width : (width + 7) >> 3;
    seen += count;
  }
  return end;
}

/** Values a last packed run may hold beyond the page's: some writers pad to whole blocks of 512; our margin. */
const PADDING = 1024;

const broken = (): Error => damaged("Parquet file", "a run of values is broken");
