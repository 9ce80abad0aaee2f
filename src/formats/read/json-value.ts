/** A number as the file wrote it, in JSON's own grammar, kept digit by digit. */
export class NumberText {
  constructor(readonly text: string) {}
}

/**
 * A value of a table as JSON text that loses nothing: whole numbers past 2^53 and numbers JSON cannot hold become text, bytes become
 * base64. Throws RangeError for a value nested deeper than `depth`.
 */
export function jsonValue(value: unknown, depth: number): string {
  switch (typeof value) {
    case "string":
      return JSON.stringify(value);
    case "number":
      return Number.isFinite(value) ? JSON.stringify(value) : `"${value}"`;
    case "bigint":
      return isSafe(value) ? String(value) : `"${value}"`;
    case "boolean":
      return String(value);
    case "object":
      return value === null ? "null" : nestedValue(value, depth);
    default:
      return "null";
  }
}

function nestedValue(value: object, depth: number): string {
  if (value instanceof NumberText) return value.text;
  if (value instanceof Uint8Array) return `"${base64(value)}"`;
  if (value instanceof Date) return Number.isFinite(value.getTime()) ? JSON.stringify(value) : "null";
  if (depth <= 0) throw new RangeError("nested too deep");
  if (Array.isArray(value) || ArrayBuffer.isView(value)) {
    return `[${Array.from(value as ArrayLike<unknown>, (one) => jsonValue(one, depth - 1)).join(",")}]`;
  }
  const members = Object.entries(value).map(([key, one]) => `${JSON.stringify(key)}:${jsonValue(one, depth - 1)}`);
  return `{${members.join(",")}}`;
}

const isSafe = (value: bigint): boolean =>
  value <= BigInt(Number.MAX_SAFE_INTEGER) && value >= -BigInt(Number.MAX_SAFE_INTEGER);

const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** RFC 4648 section 4. */
function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 3) {
    const [one, two, three] = [bytes[at]!, bytes[at + 1], bytes[at + 2]];
    const bits = (one << 16) | ((two ?? 0) << 8) | (three ?? 0);
    const last =
      two === undefined ? "==" : three === undefined ? `${letter(bits >> 6)}=` : letter(bits >> 6) + letter(bits);
    parts.push(letter(bits >> 18) + letter(bits >> 12) + last);
  }
  return parts.join("");
}

const letter = (bits: number): string => ALPHABET[bits & 63]!;
