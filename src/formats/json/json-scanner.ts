const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN_BRACE = 0x7b;
const CLOSE_BRACE = 0x7d;
const OPEN_BRACKET = 0x5b;
const CLOSE_BRACKET = 0x5d;

/** The text between the bytes is not JSON at `at`. Thrown by the scanner only; `findJsonFault` says what is wrong. */
export class JsonShapeError extends Error {
  override readonly name = "JsonShapeError";
  constructor(readonly at: number) {
    super(`Not JSON at byte ${at}`);
  }
}

/**
 * Walks over JSON bytes without building values: where members, elements and values begin and end.
 *
 * It checks the text between members and elements (commas, colons, brackets) and trusts the inside of the values it skips, which
 * `JSON.parse` must read afterwards. Linear, no recursion. Throws JsonShapeError where it cannot go on.
 */
export class JsonScanner {
  at: number;
  /** Deepest nesting met in the value skipped or walked last; 1 for a flat object. */
  deepest = 0;

  constructor(
    readonly bytes: Uint8Array,
    start = 0,
    readonly end = bytes.length,
  ) {
    this.at = start;
  }

  /** The byte at the cursor, or -1 at the end. */
  peek(): number {
    return this.at < this.end ? this.bytes[this.at]! : -1;
  }

  skipBlanks(): void {
    const { bytes, end } = this;
    let at = this.at;
    while (at < end && isBlank(bytes[at]!)) at += 1;
    this.at = at;
  }

  /** Skips one value of any kind. */
  skipValue(): void {
    const { bytes, end } = this;
    const first = this.peek();
    this.deepest = 0;
    if (first === QUOTE) this.at = this.#endOfString(this.at);
    else if (first === OPEN_BRACE || first === OPEN_BRACKET) this.#skipContainer();
    else {
      let at = this.at;
      while (at < end && !isDelimiter(bytes[at]!)) at += 1;
      if (at === this.at) throw new JsonShapeError(at);
      this.at = at;
    }
  }

  /** Walks an object: `visit` is called with the cursor on each value and must move it past. Key bytes include their quotes. */
  walkObject(visit: (keyStart: number, keyEnd: number) => void): void {
    this.#expect(OPEN_BRACE);
    this.skipBlanks();
    let deepest = 1;
    if (this.peek() !== CLOSE_BRACE) {
      for (;;) {
        const keyStart = this.at;
        if (this.peek() !== QUOTE) throw new JsonShapeError(keyStart);
        const keyEnd = this.#endOfString(keyStart);
        this.at = keyEnd;
        this.skipBlanks();
        this.#expect(COLON);
        this.skipBlanks();
        visit(keyStart, keyEnd);
        deepest = Math.max(deepest, this.deepest + 1);
        this.skipBlanks();
        if (this.peek() !== COMMA) break;
        this.at += 1;
        this.skipBlanks();
      }
    }
    this.#expect(CLOSE_BRACE);
    this.deepest = deepest;
  }

  /** Walks an array: `visit` is called with the cursor on each element and must move it past. */
  walkArray(visit: () => void): void {
    this.#expect(OPEN_BRACKET);
    this.skipBlanks();
    let deepest = 1;
    if (this.peek() !== CLOSE_BRACKET) {
      for (;;) {
        visit();
        deepest = Math.max(deepest, this.deepest + 1);
        this.skipBlanks();
        if (this.peek() !== COMMA) break;
        this.at += 1;
        this.skipBlanks();
      }
    }
    this.#expect(CLOSE_BRACKET);
    this.deepest = deepest;
  }

  #skipContainer(): void {
    const { bytes, end } = this;
    let at = this.at;
    let depth = 0;
    let deepest = 0;
    while (at < end) {
      const byte = bytes[at]!;
      if (byte === QUOTE) {
        at = this.#endOfString(at);
        continue;
      }
      at += 1;
      if (byte === OPEN_BRACE || byte === OPEN_BRACKET) {
        depth += 1;
        if (depth > deepest) deepest = depth;
      } else if (byte === CLOSE_BRACE || byte === CLOSE_BRACKET) {
        depth -= 1;
        if (depth === 0) {
          this.at = at;
          this.deepest = deepest;
          return;
        }
      }
    }
    throw new JsonShapeError(end);
  }

  #endOfString(start: number): number {
    const { bytes, end } = this;
    let at = start + 1;
    while (at < end) {
      const byte = bytes[at]!;
      if (byte === QUOTE) return at + 1;
      at += byte === BACKSLASH ? 2 : 1;
    }
    throw new JsonShapeError(end);
  }

  #expect(byte: number): void {
    if (this.peek() !== byte) throw new JsonShapeError(this.at);
    this.at += 1;
  }
}

/** Whether a byte is one of JSON's four blanks (RFC 8259 section 2). */
export const isBlank = (byte: number): boolean => byte === 0x20 || byte === 0x0a || byte === 0x0d || byte === 0x09;

const isDelimiter = (byte: number): boolean =>
  byte === COMMA || byte === CLOSE_BRACE || byte === CLOSE_BRACKET || byte === COLON || byte === QUOTE || isBlank(byte);
