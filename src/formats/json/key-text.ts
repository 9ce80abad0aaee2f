import { utf8Text } from "./utf8-text.ts";

/** Whether the key between two offsets (quotes included) is `name`, which must be ASCII; a key written with escapes counts too. */
export function isKey(bytes: Uint8Array, start: number, end: number, name: string): boolean {
  const length = end - start - 2;
  let same = 0;
  while (same < length && bytes[start + 1 + same] === name.charCodeAt(same)) same += 1;
  if (same === length) return length === name.length;
  return bytes.subarray(start + 1 + same, end).includes(0x5c) && keyText(bytes, start, end) === name;
}

/** The key between two offsets (quotes included) as text. Throws when it is not a JSON string in UTF-8. */
export function keyText(bytes: Uint8Array, start: number, end: number): string {
  return JSON.parse(utf8Text(bytes, start, end)) as string;
}
