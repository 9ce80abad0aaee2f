/** Bytes of hexadecimal digits in pairs, or null for any other text. */
export function fromHex(text: string): Uint8Array | null {
  if (text.length % 2 !== 0) return null;
  const bytes = new Uint8Array(text.length / 2);
  for (let at = 0; at < bytes.length; at += 1) {
    const high = digit(text.charCodeAt(at * 2));
    const low = digit(text.charCodeAt(at * 2 + 1));
    if (high < 0 || low < 0) return null;
    bytes[at] = high * 16 + low;
  }
  return bytes;
}

function digit(code: number): number {
  if (code >= 48 && code <= 57) return code - 48;
  if (code >= 97 && code <= 102) return code - 87;
  return code >= 65 && code <= 70 ? code - 55 : -1;
}
