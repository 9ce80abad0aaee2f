/** Longest content line in octets without its line break (RFC 5545, 3.1). */
const MOST_OCTETS = 75;

/**
 * A content line `NAME:value`, folded at 75 octets of UTF-8 with a line break and a space, never inside a character (RFC 5545, 3.1); ends with CRLF.
 */
export function contentLine(name: string, value: string): string {
  let folded = "";
  let octets = 0;
  for (const character of `${name}:${value}`) {
    const own = octetsOf(character.codePointAt(0)!);
    if (octets + own > MOST_OCTETS) {
      folded += "\r\n ";
      // The space counts with the line it begins.
      octets = 1;
    }
    folded += character;
    octets += own;
  }
  return `${folded}\r\n`;
}

const octetsOf = (code: number): number => (code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4);

/** A value of type TEXT: backslash, semicolon, comma and line break escaped, other control characters and halves of characters left out (RFC 5545, 3.3.11). */
export const escapedText = (text: string): string =>
  text
    .replace(/\r\n?/g, "\n")
    .replace(/[\p{Cc}\p{Cs}]/gu, (control) => (control === "\n" || control === "\t" ? control : ""))
    .replace(/[\\;,]/g, (mark) => `\\${mark}`)
    .replaceAll("\n", "\\n");
