/** Longest file name we write, in characters; our policy. */
export const MAX_FILE_NAME = 60;

/** Names that Windows keeps for devices, with or without an extension (Microsoft, Naming Files, Paths, and Namespaces; from memory). */
const DEVICE_NAMES: ReadonlySet<string> = new Set([
  ...["con", "prn", "aux", "nul"],
  ...Array.from({ length: 10 }, (_, digit) => `com${digit}`),
  ...Array.from({ length: 10 }, (_, digit) => `lpt${digit}`),
]);

/** Whether a file name is safe on every system: 1-60 of A-Z a-z 0-9 . _ -, no leading `.` or `-`, no trailing `.`, no device name. */
export function isSafeFileName(name: string): boolean {
  if (name.length === 0 || name.length > MAX_FILE_NAME || ".-".includes(name[0]!) || name.endsWith(".")) return false;
  for (let at = 0; at < name.length; at += 1) if (!isSafeLetter(name[at]!)) return false;
  return !DEVICE_NAMES.has(stem(name).toLowerCase());
}

/**
 * A safe file name made from any text, not yet in `taken` (lower-case names), which it is added to. Other letters become `-`, a
 * repeated name gets `-2`, `-3` ... before its extension. An empty outcome becomes `file`.
 */
export function safeFileName(text: string, taken: Set<string>): string {
  const letters = Array.from(text.slice(0, 256), (letter) => (isSafeLetter(letter) ? letter : "-")).join("");
  const wanted = trimEnds(letters);
  const dot = wanted.lastIndexOf(".");
  const extension = dot > 0 && wanted.length - dot <= 9 ? wanted.slice(dot) : "";
  let base = wanted.slice(0, wanted.length - extension.length) || "file";
  if (DEVICE_NAMES.has(stem(base).toLowerCase())) base = `_${base}`;
  for (let number = 1; ; number += 1) {
    const suffix = number === 1 ? "" : `-${number}`;
    const name = base.slice(0, MAX_FILE_NAME - suffix.length - extension.length) + suffix + extension;
    if (taken.has(name.toLowerCase())) continue;
    taken.add(name.toLowerCase());
    return name;
  }
}

function isSafeLetter(letter: string): boolean {
  const code = letter.charCodeAt(0);
  return (
    letter.length === 1 &&
    ((code >= 48 && code <= 57) || (code >= 65 && code <= 90) || (code >= 97 && code <= 122) || "._-".includes(letter))
  );
}

function trimEnds(text: string): string {
  let start = 0;
  let end = text.length;
  while (start < end && ".-".includes(text[start]!)) start += 1;
  while (end > start && ".-".includes(text[end - 1]!)) end -= 1;
  return text.slice(start, end);
}

const stem = (name: string): string => (name.includes(".") ? name.slice(0, name.indexOf(".")) : name);
