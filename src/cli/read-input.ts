import { open, stat } from "node:fs/promises";
import { LIMITS } from "../formats/read/limits.ts";
import { inputError } from "./exit-codes.ts";

/** Largest input file: what one array of bytes holds on every platform this program runs on. */
export const MAX_INPUT_BYTES = LIMITS.fileBytes;

/** Bytes asked of the system at once. */
const PART_BYTES = 1 << 26;

/**
 * The bytes of an input file, read part by part. Refuses a file that is missing, not a file, too large, or that changed while it was read: a
 * mix of two versions must never become a plan. The size is looked at before anything is read.
 */
export async function readInput(path: string): Promise<Uint8Array> {
  try {
    const file = await open(path, "r");
    try {
      const before = await file.stat();
      if (!before.isFile()) throw inputError(`${path} is not a file.`);
      if (before.size > MAX_INPUT_BYTES) {
        throw inputError(
          `${path} has ${before.size} bytes; at most ${MAX_INPUT_BYTES} are read. Split it and give the parts.`,
        );
      }
      const bytes = new Uint8Array(before.size);
      let length = 0;
      while (length < bytes.length) {
        const { bytesRead } = await file.read(bytes, length, Math.min(PART_BYTES, bytes.length - length), length);
        if (bytesRead === 0) break;
        length += bytesRead;
      }
      const after = await stat(path);
      if (after.size !== before.size || after.mtimeMs !== before.mtimeMs || length !== before.size) {
        throw inputError(`${path} changed while being read. Run again when nothing writes to it.`);
      }
      return bytes;
    } finally {
      await file.close();
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") throw inputError(`${path} does not exist.`);
    if (code === "EACCES" || code === "EPERM") throw inputError(`${path} may not be read by this user.`);
    if (error instanceof RangeError)
      throw inputError(`${path} is too large for the memory here. Split it and give the parts.`);
    if (code !== undefined) throw inputError(`${path} could not be read (${code}).`);
    throw error;
  }
}

/** The JSON value in a file; a fault names the file. */
export async function readJson(path: string): Promise<unknown> {
  const text = new TextDecoder().decode(await readInput(path));
  try {
    return JSON.parse(text);
  } catch (error) {
    throw inputError(`${path} is not valid JSON: ${(error as Error).message}`);
  }
}
