import { joinBytes } from "../join-bytes.ts";

/** Where a plan's files go piece by piece while it is made. */
export interface PlanSink {
  /** Adds bytes to the end of a file. They may not be changed afterwards. */
  write(name: string, bytes: Uint8Array): void;
  /** The files that are kept in memory, when all is written. */
  end(): Map<string, Uint8Array>;
}

/** A sink that keeps everything in memory. */
export class MemorySink implements PlanSink {
  readonly #pieces = new Map<string, Uint8Array[]>();

  write(name: string, bytes: Uint8Array): void {
    const pieces = this.#pieces.get(name);
    if (pieces === undefined) this.#pieces.set(name, [bytes]);
    else pieces.push(bytes);
  }

  end(): Map<string, Uint8Array> {
    const files = new Map<string, Uint8Array>();
    for (const [name, pieces] of this.#pieces) {
      files.set(name, pieces.length === 1 ? pieces[0]! : joinBytes(pieces));
      this.#pieces.delete(name);
    }
    return files;
  }
}
