import { closeSync, mkdirSync, openSync, rmSync, writeSync } from "node:fs";
import { join } from "node:path";
import type { PlanSink } from "../../formats/plan/plan-sink.ts";
import { asCannotWrite } from "./cannot-write-error.ts";
import type { MovedFile } from "./write-durably.ts";

/** Up to here a file is kept in memory, bytes: the system writes as fast in one piece. */
const KEPT_BYTES = 16 << 20;

interface Growing {
  bytes: number;
  pieces: Uint8Array[];
  /** Open once the file is too large to be kept. */
  descriptor: number | null;
}

/**
 * A sink that keeps small files in memory and lets large ones grow in a folder beside the plan's revisions, from which a commit moves them. Throws
 * CannotWriteError when the disk takes no more.
 */
export class Spool implements PlanSink {
  readonly #growing = new Map<string, Growing>();
  readonly #moved = new Map<string, MovedFile>();

  /** `folder` is made when it is first needed; `dir` is the plan folder that an error names. */
  constructor(
    readonly folder: string,
    readonly dir: string,
    readonly keptBytes = KEPT_BYTES,
  ) {}

  write(name: string, bytes: Uint8Array): void {
    const file = this.#growing.get(name) ?? { bytes: 0, pieces: [], descriptor: null };
    this.#growing.set(name, file);
    file.bytes += bytes.length;
    file.pieces.push(bytes);
    if (file.descriptor === null && file.bytes <= this.keptBytes) return;
    try {
      file.descriptor ??= this.#open(name);
      for (const piece of file.pieces) writeWhole(file.descriptor, piece);
      file.pieces = [];
    } catch (error) {
      throw asCannotWrite(error, this.dir, file.bytes);
    }
  }

  end(): Map<string, Uint8Array> {
    const kept = new Map<string, Uint8Array>();
    for (const [name, { pieces, descriptor }] of this.#growing) {
      if (descriptor === null) kept.set(name, Buffer.concat(pieces));
      else closeSync(descriptor);
    }
    this.#growing.clear();
    return kept;
  }

  /** The files that wait in the folder to be moved, by name. */
  get moved(): ReadonlyMap<string, MovedFile> {
    return this.#moved;
  }

  /** Closes and removes what was not moved; harmless twice. */
  discard(): void {
    for (const { descriptor } of this.#growing.values()) if (descriptor !== null) closeSync(descriptor);
    this.#growing.clear();
    rmSync(this.folder, { recursive: true, force: true });
  }

  #open(name: string): number {
    mkdirSync(this.folder, { recursive: true });
    const path = join(this.folder, name);
    this.#moved.set(name, { movedFrom: path });
    return openSync(path, "wx");
  }
}

function writeWhole(descriptor: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at, bytes.length - at);
}
