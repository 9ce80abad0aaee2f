import { readFile, stat } from "node:fs/promises";
import { inputError } from "./exit-codes.ts";

/** Largest input file read whole into memory. */
export const MAX_INPUT_BYTES = 1_500_000_000;

/**
 * The bytes of an input file. Refuses a file that is missing, not a file, too large, or that changed while it was read: a mix of
 * two versions must never become a plan.
 */
export async function readInput(path: string): Promise<Uint8Array> {
  try {
    const before = await stat(path);
    if (!before.isFile()) throw inputError(`${path} is not a file.`);
    if (before.size > MAX_INPUT_BYTES) {
      throw inputError(
        `${path} has ${before.size} bytes; at most ${MAX_INPUT_BYTES} are read. Split it and give the parts.`,
      );
    }
    const bytes = await readFile(path);
    const after = await stat(path);
    if (after.size !== before.size || after.mtimeMs !== before.mtimeMs || bytes.length !== before.size) {
      throw inputError(`${path} changed while being read. Run again when nothing writes to it.`);
    }
    return bytes;
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") throw inputError(`${path} does not exist.`);
    if (code === "EACCES" || code === "EPERM") throw inputError(`${path} may not be read by this user.`);
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
