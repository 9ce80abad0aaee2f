import { rmSync } from "node:fs";
import { readdir, rename, rm } from "node:fs/promises";
import { join, resolve } from "node:path";
import { asCannotWrite, CannotWriteError } from "./cannot-write-error.ts";
import { checkFolder, checkNames, whatIsAt } from "./check-folder.ts";
import { setMark, undoUnfinished } from "./commit-mark.ts";
import { FolderLock } from "./folder-lock.ts";
import { appendHistory, type History, type HistoryLine, readHistory } from "./history.ts";
import { makeFolder } from "./make-folder.ts";
import { currentRevision, REVISIONS, revisionNumber } from "./read-current.ts";
import { type RevisionFile, writeRevisionFiles } from "./revision-files.ts";
import { Spool } from "./spool.ts";
import { switchCurrent } from "./switch-current.ts";
import { isTemporaryName, temporaryName } from "./temporary-name.ts";
import { flushFolder } from "./write-durably.ts";

/** How a plan folder is opened for writing. */
export interface OpenPlanFolderOptions {
  /** Whether a plan that is there may get a new revision in its place; default false. Its earlier revisions stay. */
  readonly replace?: boolean;
  /** Number of the revision that the next one carries on, which may lie in another folder: it gets a higher one. Default 0. */
  readonly after?: number;
  /** Paths of the input files; the folder may not hold any of them. */
  readonly inputs?: readonly string[];
}

/** What the history says of a revision. */
export type RevisionNote = Omit<HistoryLine, "revision">;

/**
 * Opens a folder to write a plan's next revision into it, before anything is computed: makes it where it is missing, takes its lock,
 * removes what killed runs left, keeps everything foreign. The caller must `commit` or `close` it.
 *
 * Throws CannotWriteError when the folder cannot be written, is a file or a link, holds an input, is being written by another run, or
 * holds a plan and `replace` is not set.
 */
export async function openPlanFolder(dir: string, options: OpenPlanFolderOptions = {}): Promise<PlanFolder> {
  const home = resolve(dir);
  let lock: FolderLock | null = null;
  try {
    await checkFolder(home, options.inputs ?? []);
    await checkNames(home);
    lock = await FolderLock.take(home);
    await undoUnfinished(home);
    const existing = await existingPlan(home);
    if (existing !== null && options.replace !== true) throw planExists(home, existing);
    await removeLeftovers(home);
    const history = await readHistory(home);
    return new PlanFolder(home, lock, history, existing, Math.max(await nextRevision(home), (options.after ?? 0) + 1));
  } catch (error) {
    lock?.release();
    throw asCannotWrite(error, home);
  }
}

/** A plan folder open for one new revision. */
export class PlanFolder {
  readonly #temporary: string;
  /** Where large files of the next revision grow before they are moved into it. */
  readonly spool: Spool;
  #isClosed = false;

  constructor(
    /** Absolute path. */
    readonly dir: string,
    private readonly lock: FolderLock,
    private readonly history: History,
    /** The plan that is there, by its newest history line; null for none. */
    readonly existing: HistoryLine | null,
    /** Number the next revision will have. */
    readonly nextRevision: number,
  ) {
    this.#temporary = join(dir, REVISIONS, temporaryName());
    this.spool = new Spool(join(dir, REVISIONS, temporaryName()), dir);
  }

  /**
   * Writes the next revision and makes it the current one, then closes the folder; gives its absolute path. The files are written beside
   * and flushed, renamed into place, and `current` is switched by one rename: a run killed at any moment leaves the old plan or the new.
   *
   * Throws CannotWriteError with the old plan untouched, and whatever the files' iterators throw.
   */
  async commit(files: Iterable<RevisionFile>, note: RevisionNote): Promise<string> {
    if (this.#isClosed) throw new TypeError("Expected an open plan folder, got one that was closed");
    const revisions = join(this.dir, REVISIONS);
    const final = join(revisions, String(this.nextRevision));
    let bytesNeeded = 0;
    let isMarked = false;
    try {
      await makeFolder(revisions);
      await writeRevisionFiles(this.#temporary, files, (bytes) => {
        bytesNeeded += bytes;
      });
      await this.lock.assertHeld();
      isMarked = true;
      await setMark(this.dir, { revision: this.nextRevision, historyBytes: this.history.lengthBytes });
      await appendHistory(this.dir, { revision: this.nextRevision, ...note });
      await rename(this.#temporary, final);
      await flushFolder(revisions);
      await this.lock.assertHeld();
      await switchCurrent(this.dir, this.nextRevision);
      // The new plan stands: a mark that cannot be removed is for the next run to remove.
      await undoUnfinished(this.dir).catch(() => {});
      return final;
    } catch (error) {
      if (isMarked) await undoUnfinished(this.dir).catch(() => {});
      throw asCannotWrite(error, this.dir, bytesNeeded);
    } finally {
      this.close();
    }
  }

  /** Gives the folder back without a new revision; harmless after `commit`. Synchronous, so that a signal's handler can call it. */
  close(): void {
    if (this.#isClosed) return;
    this.#isClosed = true;
    try {
      rmSync(this.#temporary, { recursive: true, force: true });
      this.spool.discard();
    } catch {
      // What cannot be removed now is removed by the next run.
    }
    this.lock.release();
  }
}

/** The plan that is there: by the history line of its current revision, or of its newest where the pointer is lost. */
async function existingPlan(dir: string): Promise<HistoryLine | null> {
  const current = await currentRevision(dir);
  const newest = current ?? (await nextRevision(dir)) - 1;
  if (newest === 0) return null;
  const { lines } = await readHistory(dir);
  const unknown = { revision: newest, plan: "unknown", as_of: "unknown", event: "unknown" };
  return lines.findLast(({ revision }) => revision === newest) ?? (current === null ? null : unknown);
}

/** Unfinished folders, pointers and locks of runs that are gone. */
async function removeLeftovers(dir: string): Promise<void> {
  for (const folder of [dir, join(dir, REVISIONS)]) {
    if ((await whatIsAt(folder)) !== "folder") continue;
    for (const name of await readdir(folder)) {
      if (isTemporaryName(name)) await rm(join(folder, name), { recursive: true, force: true });
    }
  }
}

/** The number after the current revision, and after every folder already there. */
async function nextRevision(dir: string): Promise<number> {
  const revisions = join(dir, REVISIONS);
  const names = (await whatIsAt(revisions)) === "folder" ? await readdir(revisions) : [];
  const current = (await currentRevision(dir)) ?? 0;
  return 1 + names.reduce((highest, name) => Math.max(highest, revisionNumber(name) ?? 0), current);
}

function planExists(dir: string, { plan, as_of, revision }: HistoryLine): CannotWriteError {
  return new CannotWriteError(
    "existing-plan",
    dir,
    `${dir} already holds plan ${plan} as of ${as_of} (revision ${revision}). Choose another folder, or give --replace for a new revision in its place.`,
  );
}
