import { zipSync } from "fflate";
import { isSafeFileName } from "./safe-file-name.ts";

/**
 * Noon on the first day a zip can name. A text without a zone is read and written in the same local time, so the bytes do not depend
 * on the time zone; noon exists everywhere.
 */
const FIXED_TIME = "1980-01-01T12:00:00";

export interface ZipFile {
  /** Safe in the sense of `isSafeFileName`, and unique without regard to case. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A zip of the files in the given order; the same files give the same bytes everywhere. Throws RangeError for an unsafe or repeated name. */
export function zip(files: readonly ZipFile[]): Uint8Array {
  const taken = new Set<string>();
  const entries: Record<string, Uint8Array> = Object.create(null);
  for (const { name, bytes } of files) {
    if (!isSafeFileName(name))
      throw new RangeError(`Expected a safe file name, got ${JSON.stringify(name.slice(0, 80))}`);
    if (taken.has(name.toLowerCase())) throw new RangeError(`Expected each file name once, got "${name}" again`);
    taken.add(name.toLowerCase());
    entries[name] = bytes;
  }
  return zipSync(entries, { level: 6, mtime: FIXED_TIME });
}
