/**
 * A table of a FlatBuffers message (FlatBuffers internals, "Tables"), read in place. Every access is checked against the message: RangeError
 * for anything outside it. Fields are asked for by their number in the schema.
 */
export class FlatTable {
  readonly #view: DataView;
  readonly #at: number;
  readonly #vtable: number;
  readonly #vtableBytes: number;

  private constructor(view: DataView, at: number) {
    this.#view = view;
    this.#at = at;
    this.#vtable = at - view.getInt32(at, true);
    this.#vtableBytes = view.getUint16(this.#vtable, true);
  }

  /** The root table of a message without its size prefix. */
  static root(bytes: Uint8Array): FlatTable {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    return new FlatTable(view, view.getUint32(0, true));
  }

  uint8(field: number): number {
    const at = this.#field(field);
    return at === 0 ? 0 : this.#view.getUint8(at);
  }

  uint16(field: number, otherwise: number): number {
    const at = this.#field(field);
    return at === 0 ? otherwise : this.#view.getUint16(at, true);
  }

  int32(field: number): number {
    const at = this.#field(field);
    return at === 0 ? 0 : this.#view.getInt32(at, true);
  }

  uint64(field: number): bigint {
    const at = this.#field(field);
    return at === 0 ? 0n : this.#view.getBigUint64(at, true);
  }

  /** A text, or null when it is absent; bytes that are not UTF-8 become replacement characters. */
  text(field: number): string | null {
    const bytes = this.bytes(field);
    return bytes === null ? null : new TextDecoder().decode(bytes);
  }

  /** A vector of bytes, or null when it is absent. */
  bytes(field: number): Uint8Array | null {
    const vector = this.#vector(field, 1);
    return vector === null ? null : new Uint8Array(this.#view.buffer, this.#view.byteOffset + vector.at, vector.length);
  }

  /** A vector of numbers, or null when it is absent. */
  doubles(field: number): Float64Array | null {
    const vector = this.#vector(field, 8);
    if (vector === null) return null;
    return Float64Array.from({ length: vector.length }, (_, index) =>
      this.#view.getFloat64(vector.at + index * 8, true),
    );
  }

  uint32s(field: number): number[] | null {
    const vector = this.#vector(field, 4);
    if (vector === null) return null;
    return Array.from({ length: vector.length }, (_, index) => this.#view.getUint32(vector.at + index * 4, true));
  }

  /** A vector of tables; empty when it is absent. */
  tables(field: number): FlatTable[] {
    const vector = this.#vector(field, 4);
    if (vector === null) return [];
    return Array.from({ length: vector.length }, (_, index) => this.#tableAt(vector.at + index * 4));
  }

  table(field: number): FlatTable | null {
    const at = this.#field(field);
    return at === 0 ? null : this.#tableAt(at);
  }

  #tableAt = (at: number): FlatTable => new FlatTable(this.#view, at + this.#view.getUint32(at, true));

  /** Offset of a field, or 0 when it is absent. */
  #field(field: number): number {
    const slot = 4 + field * 2;
    if (slot + 2 > this.#vtableBytes) return 0;
    const offset = this.#view.getUint16(this.#vtable + slot, true);
    return offset === 0 ? 0 : this.#at + offset;
  }

  #vector(field: number, bytesEach: number): { at: number; length: number } | null {
    const at = this.#field(field);
    if (at === 0) return null;
    const start = at + this.#view.getUint32(at, true);
    const length = this.#view.getUint32(start, true);
    if (start + 4 + length * bytesEach > this.#view.byteLength)
      throw new RangeError("Vector past the end of the message");
    return { at: start + 4, length };
  }
}
