const FIRST_BYTES = 1 << 16;

/** Texts gathered as UTF-8 in one array that grows. */
export class TextBytes {
  readonly #encoder = new TextEncoder();
  #bytes = new Uint8Array(FIRST_BYTES);
  /** Bytes so far. */
  length = 0;

  add(text: string): void {
    // A UTF-16 unit takes at most three bytes in UTF-8.
    const most = this.length + text.length * 3;
    if (most > this.#bytes.length) this.#grow(most);
    this.length += this.#encoder.encodeInto(text, this.#bytes.subarray(this.length)).written;
  }

  /** A copy of what was gathered, in a buffer of its own. */
  bytes(): Uint8Array<ArrayBuffer> {
    return this.#bytes.slice(0, this.length);
  }

  #grow(needed: number): void {
    const larger = new Uint8Array(Math.max(needed, this.#bytes.length * 2));
    larger.set(this.#bytes.subarray(0, this.length));
    this.#bytes = larger;
  }
}
