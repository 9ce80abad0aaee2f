import { windows1252Text } from "./windows-1252.ts";

/** Text of bytes that are not UTF-8 throughout. */
export interface MixedText {
  readonly text: string;
  /** Bytes that are no part of a UTF-8 sequence. */
  readonly strayBytes: number;
  /** Offset of the first of them; -1 when there is none. */
  readonly firstStray: number;
  /** Multi-byte UTF-8 sequences. */
  readonly utf8Sequences: number;
}

/** Reads UTF-8 sequences (Unicode 15 table 3-7) as what they are and every other byte as Windows-1252. Linear. */
export function mixedText(bytes: Uint8Array): MixedText {
  const utf8 = new TextDecoder("utf-8", { ignoreBOM: true });
  const parts: string[] = [];
  let start = 0;
  let at = 0;
  let strayBytes = 0;
  let firstStray = -1;
  let utf8Sequences = 0;
  while (at < bytes.length) {
    const length = sequenceLength(bytes, at);
    if (length > 0) {
      if (length > 1) utf8Sequences += 1;
      at += length;
      continue;
    }
    parts.push(utf8.decode(bytes.subarray(start, at)));
    start = at;
    while (at < bytes.length && sequenceLength(bytes, at) === 0) at += 1;
    parts.push(windows1252Text(bytes.subarray(start, at)));
    strayBytes += at - start;
    if (firstStray === -1) firstStray = start;
    start = at;
  }
  parts.push(utf8.decode(bytes.subarray(start)));
  return { text: parts.join(""), strayBytes, firstStray, utf8Sequences };
}

/** Bytes of the UTF-8 sequence at an offset, or 0 where none begins. */
function sequenceLength(bytes: Uint8Array, at: number): number {
  const lead = bytes[at]!;
  if (lead < 0x80) return 1;
  const length =
    lead >= 0xc2 && lead <= 0xdf ? 2 : lead >= 0xe0 && lead <= 0xef ? 3 : lead >= 0xf0 && lead <= 0xf4 ? 4 : 0;
  if (length === 0 || at + length > bytes.length) return 0;
  const second = bytes[at + 1]!;
  const low = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
  const high = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
  if (second < low || second > high) return 0;
  for (let next = 2; next < length; next += 1) if (bytes[at + next]! < 0x80 || bytes[at + next]! > 0xbf) return 0;
  return length;
}
