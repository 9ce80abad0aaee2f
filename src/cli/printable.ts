/** The text with control and direction characters shown as `\u001b` escapes, so that a value from a file cannot drive the terminal. */
export function printable(text: string): string {
  let out = "";
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const isControl = (code < 32 && character !== "\n") || (code >= 127 && code < 160);
    out += isControl || isDirectional(code) ? `\\u${code.toString(16).padStart(4, "0")}` : character;
  }
  return out;
}

/** Marks that turn the direction of the text around them, or break its line (Unicode Standard Annex 9 section 2; U+2028, U+2029). */
const isDirectional = (code: number): boolean =>
  code === 0x61c ||
  code === 0x200e ||
  code === 0x200f ||
  (code >= 0x2028 && code <= 0x202e) ||
  (code >= 0x2066 && code <= 0x2069);
