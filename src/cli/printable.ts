/** The text with control characters shown as `\u001b` escapes, so that a value from a file cannot drive the terminal. */
export function printable(text: string): string {
  let out = "";
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const isControl =
      (code < 32 && character !== "\n") || (code >= 127 && code < 160) || (code >= 0x202a && code <= 0x202e);
    out += isControl ? `\\u${code.toString(16).padStart(4, "0")}` : character;
  }
  return out;
}
