/**
 * The text of UTF-8 bytes, strictly: throws TypeError for bytes that are not UTF-8. A byte-order mark is kept as a character, so that
 * `JSON.parse` refuses it where it does not belong.
 */
export function utf8Text(bytes: Uint8Array, start = 0, end = bytes.length): string {
  return DECODER.decode(bytes.subarray(start, end));
}

const DECODER = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });

/** Bytes of the UTF-8 byte-order mark at the start of a file: 3 or 0. */
export function byteOrderMarkLength(bytes: Uint8Array): number {
  return bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
}

/** Offset of the first byte that is not UTF-8 (Unicode 15 table 3-7: no overlong forms, surrogates or values past U+10FFFF), or -1. */
export function findUtf8Fault(bytes: Uint8Array): number {
  let at = 0;
  while (at < bytes.length) {
    const lead = bytes[at]!;
    if (lead < 0x80) {
      at += 1;
      continue;
    }
    const length =
      lead >= 0xc2 && lead <= 0xdf ? 2 : lead >= 0xe0 && lead <= 0xef ? 3 : lead >= 0xf0 && lead <= 0xf4 ? 4 : 0;
    if (length === 0) return at;
    const second = bytes[at + 1] ?? 0;
    const low = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
    const high = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
    if (second < low || second > high) return at;
    for (let next = 2; next < length; next += 1) {
      const byte = bytes[at + next] ?? 0;
      if (byte < 0x80 || byte > 0xbf) return at;
    }
    at += length;
  }
  return -1;
}

/** Line and column of a byte offset, both from 1; the column counts characters, and a line ends with LF, CR or CR LF. */
export function placeInText(bytes: Uint8Array, offset: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let column = 1;
  for (let at = 0; at < offset && at < bytes.length; at += 1) {
    const byte = bytes[at]!;
    if (byte === 0x0a || (byte === 0x0d && bytes[at + 1] !== 0x0a)) {
      line += 1;
      column = 1;
    } else if (byte < 0x80 || byte > 0xbf) {
      column += 1;
    }
  }
  return { line, column };
}
