import { readFile, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { cutHistory } from "./history.ts";
import { currentRevision, REVISIONS } from "./read-current.ts";
import { temporaryName } from "./temporary-name.ts";
import { flushFolder, writeDurably } from "./write-durably.ts";

/** Stands in a plan folder from before the history is appended until `current` is switched. */
const MARK = ".boughline-committing";

/** What a run is about to do, so that the next one can undo it if it was killed. */
export interface CommitMark {
  readonly revision: number;
  /** Length of the history before the run. */
  readonly historyBytes: number;
}

/** Sets the mark, flushed; from here on a killed run is undone by `undoUnfinished`. */
export async function setMark(dir: string, mark: CommitMark): Promise<void> {
  const beside = join(dir, temporaryName());
  await writeDurably(beside, JSON.stringify(mark));
  await rename(beside, join(dir, MARK));
  await flushFolder(dir);
}

/**
 * Undoes what a marked run left half done: takes its revision's folder and its history line back, unless the revision became current.
 * Then removes the mark. Without a mark nothing is touched, whatever numbers stand in the folder.
 */
export async function undoUnfinished(dir: string): Promise<void> {
  const mark = await readMark(dir);
  if (mark !== null && (await currentRevision(dir)) !== mark.revision) {
    await rm(join(dir, REVISIONS, String(mark.revision)), { recursive: true, force: true });
    await cutHistory(dir, mark.historyBytes);
  }
  await rm(join(dir, MARK), { force: true });
}

async function readMark(dir: string): Promise<CommitMark | null> {
  try {
    const { revision, historyBytes } = JSON.parse(await readFile(join(dir, MARK), "utf8")) as Partial<CommitMark>;
    if (!Number.isSafeInteger(revision) || revision! < 1) return null;
    return Number.isSafeInteger(historyBytes) && historyBytes! >= 0
      ? { revision: revision!, historyBytes: historyBytes! }
      : null;
  } catch (error) {
    if (error instanceof SyntaxError || (error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
}
