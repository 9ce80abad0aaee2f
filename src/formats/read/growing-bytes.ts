import { withThousands } from "../../core/units/with-thousands.ts";
import { unreadableFile } from "./unreadable-file.ts";

/** Texts longer than this are encoded on their own, so that no room for three bytes a character has to be made. */
const LONG_TEXT = 1 << 20;

/**
 * Bytes written one after another into one array, which grows by half when it is full. With a good guess of the length nothing is copied
 * and nothing held twice: room that is never written to takes no memory. Throws UnreadableError when the machine has no memory for more.
 */
export class GrowingBytes {
  readonly #encoder = new TextEncoder();
  #bytes: Uint8Array;
  /** Bytes written. */
  length = 0;

  constructor(expectedBytes = 0) {
    this.#bytes = allocate(Math.max(1 << 16, Math.ceil(expectedBytes)));
  }

  bytes(piece: Uint8Array): void {
    this.#makeRoom(piece.length);
    this.#bytes.set(piece, this.length);
    this.length += piece.length;
  }

  text(text: string): void {
    if (text.length > LONG_TEXT) {
      this.bytes(this.#encoder.encode(text));
      return;
    }
    // A UTF-16 unit takes at most three bytes in UTF-8.
    this.#makeRoom(text.length * 3);
    this.length += this.#encoder.encodeInto(text, this.#bytes.subarray(this.length)).written;
  }

  /** All bytes written: a view, not a copy, so that nothing may be written afterwards. */
  end(): Uint8Array {
    return this.#bytes.subarray(0, this.length);
  }

  #makeRoom(more: number): void {
    const wanted = this.length + more;
    if (wanted <= this.#bytes.length) return;
    const grown = allocate(Math.max(wanted, Math.ceil(this.#bytes.length * 1.5)));
    grown.set(this.#bytes.subarray(0, this.length));
    this.#bytes = grown;
  }
}

function allocate(length: number): Uint8Array {
  try {
    return new Uint8Array(length);
  } catch {
    throw unreadableFile(
      "out-of-memory",
      `This program gets no memory for ${withThousands(length)} bytes at once.`,
      "Split the file, or close other programs.",
    );
  }
}
