import { isBlank } from "./json-scanner.ts";

/** Where a text stops being JSON and what was expected there. */
export interface JsonFault {
  readonly offset: number;
  /** In words, for example `a comma or a closing bracket`. */
  readonly expected: string;
}

const VALUE = "a value";
const WORDS = ["true", "false", "null"].map((word) => ({
  word,
  codes: Array.from(word, (letter) => letter.charCodeAt(0)),
}));

/**
 * The first place where the bytes are not one JSON value (RFC 8259), or null when they are. Strict and linear, at any depth.
 *
 * Only for saying where a text is broken: what is accepted is decided by `JSON.parse`, and the tests hold the two together. Does not
 * look at UTF-8.
 */
export function findJsonFault(bytes: Uint8Array, start = 0, end = bytes.length): JsonFault | null {
  const open: number[] = [];
  let at = skipBlanks(bytes, start, end);
  let wants: "value" | "value-or-close" | "key" | "key-or-close" | "next" = "value";
  for (;;) {
    const byte = at < end ? bytes[at]! : -1;
    if (wants === "next") {
      if (open.length === 0) return byte === -1 ? null : fault(at, "the end of the text");
      const inObject = open.at(-1) === 0x7b;
      if (byte === (inObject ? 0x7d : 0x5d)) {
        open.pop();
        at += 1;
      } else if (byte === 0x2c) {
        at += 1;
        wants = inObject ? "key" : "value";
      } else return fault(at, inObject ? "a comma or }" : "a comma or ]");
    } else if (wants === "key" || wants === "key-or-close") {
      if (byte === 0x7d && wants === "key-or-close") {
        open.pop();
        at += 1;
        wants = "next";
      } else {
        if (byte !== 0x22) return fault(at, "a name in double quotes");
        const key = endOfString(bytes, at, end);
        if (typeof key !== "number") return key;
        at = skipBlanks(bytes, key, end);
        if (at >= end || bytes[at] !== 0x3a) return fault(at, "a colon");
        at += 1;
        wants = "value";
      }
    } else if (byte === 0x7b || byte === 0x5b) {
      open.push(byte);
      at += 1;
      wants = byte === 0x7b ? "key-or-close" : "value-or-close";
    } else if (byte === 0x5d && wants === "value-or-close") {
      open.pop();
      at += 1;
      wants = "next";
    } else {
      const scalar = byte === 0x22 ? endOfString(bytes, at, end) : endOfScalar(bytes, at, end);
      if (typeof scalar !== "number") return scalar;
      at = scalar;
      wants = "next";
    }
    at = skipBlanks(bytes, at, end);
  }
}

function endOfString(bytes: Uint8Array, start: number, end: number): number | JsonFault {
  let at = start + 1;
  while (at < end) {
    const byte = bytes[at]!;
    if (byte === 0x22) return at + 1;
    if (byte < 0x20) return fault(at, "no control character inside a text");
    at += 1;
    if (byte !== 0x5c) continue;
    const escaped = at < end ? String.fromCharCode(bytes[at]!) : "";
    if (escaped === "" || !'"\\/bfnrtu'.includes(escaped)) return fault(at, 'an escape such as \\n, \\" or \\u00e9');
    at += 1;
    for (let digit = 0; escaped === "u" && digit < 4; digit += 1, at += 1) {
      if (at >= end || !isHexDigit(bytes[at]!)) return fault(at, "four hexadecimal digits after \\u");
    }
  }
  return fault(at, "the closing quote of a text");
}

function endOfScalar(bytes: Uint8Array, start: number, end: number): number | JsonFault {
  for (const { word, codes } of WORDS) {
    if (bytes[start] === codes[0] && start < end) {
      const wrong = codes.findIndex((code, index) => start + index >= end || bytes[start + index] !== code);
      return wrong === -1 ? start + codes.length : fault(start + wrong, `the word ${word}`);
    }
  }
  return endOfNumber(bytes, start, end);
}

function endOfNumber(bytes: Uint8Array, start: number, end: number): number | JsonFault {
  const byteAt = (place: number): number => (place < end ? bytes[place]! : -1);
  let at = start;
  const negative = byteAt(at) === 0x2d;
  if (negative) at += 1;
  if (byteAt(at) === 0x30) at += 1;
  else {
    const digits = skipDigits(bytes, at, end);
    if (digits === at) return fault(at, negative ? "a digit" : VALUE);
    at = digits;
  }
  if (byteAt(at) === 0x2e) {
    const digits = skipDigits(bytes, at + 1, end);
    if (digits === at + 1) return fault(digits, "a digit after the decimal point");
    at = digits;
  }
  if (byteAt(at) === 0x65 || byteAt(at) === 0x45) {
    at += 1;
    if (byteAt(at) === 0x2b || byteAt(at) === 0x2d) at += 1;
    const digits = skipDigits(bytes, at, end);
    if (digits === at) return fault(at, "a digit in the exponent");
    at = digits;
  }
  return at;
}

function skipDigits(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  while (at < end && bytes[at]! >= 0x30 && bytes[at]! <= 0x39) at += 1;
  return at;
}

function skipBlanks(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  while (at < end && isBlank(bytes[at]!)) at += 1;
  return at;
}

const isHexDigit = (byte: number): boolean =>
  (byte >= 0x30 && byte <= 0x39) || (byte >= 0x41 && byte <= 0x46) || (byte >= 0x61 && byte <= 0x66);

const fault = (offset: number, expected: string): JsonFault => ({ offset, expected });
