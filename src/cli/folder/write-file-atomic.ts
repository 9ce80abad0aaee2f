import { rmSync } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { stopCleanly } from "../stop-cleanly.ts";
import { asCannotWrite } from "./cannot-write-error.ts";
import { temporaryName } from "./temporary-name.ts";
import { type FileContent, flushFolder, writeDurably } from "./write-durably.ts";

/**
 * Writes a file whole or not at all, in the place of one that is there: beside it first, flushed, then renamed. The folder must exist.
 * A run that is stopped meanwhile takes the unfinished file with it. Throws CannotWriteError, with the old file untouched.
 */
export async function writeFileAtomic(path: string, content: FileContent): Promise<void> {
  const target = resolve(path);
  const folder = dirname(target);
  const beside = join(folder, temporaryName());
  let bytesNeeded = 0;
  const stopping = stopCleanly(() => rmSync(beside, { force: true }));
  try {
    await writeDurably(beside, content, (bytes) => {
      bytesNeeded += bytes;
    });
    await rename(beside, target);
    await flushFolder(folder);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => {});
    throw asCannotWrite(error, target, bytesNeeded);
  } finally {
    stopping.release();
  }
}
