/** Characters of the bytes 80 to 9F in Windows-1252 (WHATWG Encoding Standard, index-windows-1252); all other bytes are Latin-1. */
const HIGH =
  "\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f" +
  "\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178";
const STEP = 8192;

/** Text in Windows-1252. Made here because Node 20 decodes bytes 80 to 9F under that name as control characters. */
export function windows1252Text(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let start = 0; start < bytes.length; start += STEP) {
    const codes = Array.from(bytes.subarray(start, start + STEP), (byte) =>
      byte >= 0x80 && byte <= 0x9f ? HIGH.charCodeAt(byte - 0x80) : byte,
    );
    parts.push(String.fromCharCode(...codes));
  }
  return parts.join("");
}
