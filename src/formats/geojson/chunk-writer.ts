const CHUNK_BYTES = 1 << 20;

/** Gathers small pieces of bytes and text into chunks of about a megabyte. */
export class ChunkWriter {
  readonly #encoder = new TextEncoder();
  #chunk = new Uint8Array(CHUNK_BYTES);
  #length = 0;
  readonly #full: Uint8Array[] = [];

  bytes(piece: Uint8Array): void {
    if (this.#length + piece.length > this.#chunk.length) this.#close();
    if (piece.length > this.#chunk.length) {
      this.#full.push(piece);
      return;
    }
    this.#chunk.set(piece, this.#length);
    this.#length += piece.length;
  }

  text(text: string): void {
    // A UTF-16 unit takes at most three bytes in UTF-8.
    if (text.length * 3 > this.#chunk.length) {
      this.bytes(this.#encoder.encode(text));
      return;
    }
    if (this.#length + text.length * 3 > this.#chunk.length) this.#close();
    this.#length += this.#encoder.encodeInto(text, this.#chunk.subarray(this.#length)).written;
  }

  /** The chunks that are full, and no longer kept here. */
  take(): Uint8Array[] {
    return this.#full.splice(0);
  }

  /** All chunks left. */
  end(): Uint8Array[] {
    this.#close();
    return this.take();
  }

  #close(): void {
    if (this.#length === 0) return;
    this.#full.push(this.#chunk.subarray(0, this.#length));
    this.#chunk = new Uint8Array(CHUNK_BYTES);
    this.#length = 0;
  }
}
