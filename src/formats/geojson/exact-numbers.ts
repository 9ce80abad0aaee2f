import { JsonScanner } from "../json/json-scanner.ts";
import { keyText } from "../json/key-text.ts";

/** Digits and sign of the longest whole number kept as text; past it the rounded number stands. Our policy. */
const MAX_DIGITS = 256;

/**
 * A feature's id: text and numbers as they are, whole numbers past 2^53 as their text in the file, since a double would round them.
 * Null for any other value.
 */
export function exactId(value: unknown, bytes: Uint8Array, start: number, end: number): string | number | null {
  if (typeof value === "string") return value;
  if (typeof value !== "number") return null;
  return exactText(value, bytes, start, end) ?? (Number.isFinite(value) ? value : null);
}

/**
 * Properties with every whole number past 2^53 replaced by its text in the file; the same object when there is none. `start` and `end`
 * bound the properties object in the bytes.
 */
export function exactProperties(
  properties: Readonly<Record<string, unknown>>,
  bytes: Uint8Array,
  start: number,
  end: number,
): Readonly<Record<string, unknown>> {
  if (!Object.values(properties).some(isInexact)) return properties;
  const entries = new Map<string, unknown>(Object.entries(properties));
  const scanner = new JsonScanner(bytes, start, end);
  scanner.walkObject((keyStart, keyEnd) => {
    const valueStart = scanner.at;
    scanner.skipValue();
    const key = keyText(bytes, keyStart, keyEnd);
    const text = exactText(properties[key], bytes, valueStart, scanner.at);
    if (text !== null) entries.set(key, text);
  });
  return Object.fromEntries(entries);
}

const isInexact = (value: unknown): boolean => typeof value === "number" && Math.abs(value) > Number.MAX_SAFE_INTEGER;

function exactText(value: unknown, bytes: Uint8Array, start: number, end: number): string | null {
  if (!isInexact(value) || start < 0 || end - start > MAX_DIGITS) return null;
  for (let at = start; at < end; at += 1) {
    const isDigit = bytes[at]! >= 0x30 && bytes[at]! <= 0x39;
    if (!isDigit && !(at === start && bytes[at] === 0x2d)) return null;
  }
  return String.fromCharCode(...bytes.subarray(start, end));
}
