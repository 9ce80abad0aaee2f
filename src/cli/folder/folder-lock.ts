import { randomBytes } from "node:crypto";
import { readFileSync, rmdirSync, unlinkSync } from "node:fs";
import { link, readFile, rename, rm } from "node:fs/promises";
import { hostname } from "node:os";
import { dirname, join } from "node:path";
import { CannotWriteError } from "./cannot-write-error.ts";
import { makeFolder } from "./make-folder.ts";
import { REVISIONS } from "./read-current.ts";
import { temporaryName } from "./temporary-name.ts";
import { writeDurably } from "./write-durably.ts";

export const LOCK = ".boughline.lock";
const ATTEMPTS = 20;

/** Who holds a folder. */
interface Holder {
  readonly pid: number;
  readonly host: string;
  /** Start of the process in clock ticks since boot (Linux), so that a number used again is told apart; else null. */
  readonly started: string | null;
  readonly token: string;
}

/**
 * The right to write one folder, held by one process at a time. The lock of a process that is gone is taken over.
 *
 * Two runs that take over at once can both believe for a moment that they hold it; `assertHeld` just before the pointer is switched
 * lets at most one pass, and a revision's folder cannot be renamed onto another.
 */
export class FolderLock {
  /** First of the folders made for the lock, or null when the folder was there. */
  #firstMade: string | null = null;

  private constructor(
    readonly dir: string,
    private readonly text: string,
  ) {}

  /**
   * Takes the lock, making the folder where it is missing. Throws CannotWriteError `locked` while another run holds it, and system errors
   * as they come.
   */
  static async take(dir: string): Promise<FolderLock> {
    const holder: Holder = {
      pid: process.pid,
      host: hostname(),
      started: startOf(process.pid),
      token: randomBytes(8).toString("hex"),
    };
    const lock = new FolderLock(dir, JSON.stringify(holder));
    for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
      // Each time anew: a run that gives up takes an empty folder back.
      lock.#firstMade = (await makeFolder(dir)) ?? lock.#firstMade;
      if (await lock.#create()) return lock;
      const found = await readIfThere(join(dir, LOCK));
      if (found === null) continue;
      if (isAlive(found)) throw locked(dir, found);
      await lock.#removeStale(found);
    }
    throw new CannotWriteError("locked", dir, `${dir} is being written by other runs. Run again when they are done.`);
  }

  /** Throws CannotWriteError `locked` when the lock on the disk is no longer this one. */
  async assertHeld(): Promise<void> {
    if ((await readIfThere(join(this.dir, LOCK))) === this.text) return;
    throw new CannotWriteError("locked", this.dir, `${this.dir} was taken over by another run. Nothing was changed.`);
  }

  /**
   * Gives the lock back, and the folders made for it when nothing came into them. Synchronous, so that a signal's handler can do it.
   */
  release(): void {
    const path = join(this.dir, LOCK);
    const { dir } = this;
    const firstMade = this.#firstMade;
    if (firstMade !== null) tryRemove(join(dir, REVISIONS));
    try {
      if (readFileSync(path, "utf8") === this.text) unlinkSync(path);
    } catch {
      // A lock that cannot be removed is stale as soon as this process ends.
    }
    if (firstMade === null) return;
    for (let folder = dir; tryRemove(folder) && folder !== firstMade; folder = dirname(folder));
  }

  /** Made complete beside and linked into place, so that nobody reads a lock half written. */
  async #create(): Promise<boolean> {
    const path = join(this.dir, LOCK);
    const beside = join(this.dir, temporaryName());
    try {
      await writeDurably(beside, this.text);
      await link(beside, path);
      return true;
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      // ENOENT: the run that holds the lock swept the file away as a leftover, or one that gave up took the folder back.
      if (code === "EEXIST" || code === "ENOENT") return false;
      if (code !== "EPERM" && code !== "ENOSYS" && code !== "ENOTSUP" && code !== "EOPNOTSUPP") throw error;
      return await createDirectly(path, this.text);
    } finally {
      await rm(beside, { force: true }).catch(() => {});
    }
  }

  /** Moves a dead run's lock out of the way; a lock that another run has set meanwhile is put back. */
  async #removeStale(stale: string): Promise<void> {
    const path = join(this.dir, LOCK);
    const aside = join(this.dir, temporaryName());
    try {
      await rename(path, aside);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return;
      throw error;
    }
    if ((await readIfThere(aside)) !== stale) await link(aside, path).catch(() => {});
    await rm(aside, { force: true });
  }
}

/** Removes a folder that is empty. */
function tryRemove(folder: string): boolean {
  try {
    rmdirSync(folder);
    return true;
  } catch {
    return false;
  }
}

/** For disks without links. */
async function createDirectly(path: string, text: string): Promise<boolean> {
  try {
    await writeDurably(path, text);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

function locked(dir: string, text: string): CannotWriteError {
  const holder = parseHolder(text);
  const who =
    holder === null ? "another run" : `the run with process number ${holder.pid} on ${holder.host.slice(0, 80)}`;
  const advice =
    holder !== null && holder.host === hostname()
      ? "Run again when it is done."
      : `Run again when it is done; if it no longer runs, delete ${join(dir, LOCK)}.`;
  return new CannotWriteError("locked", dir, `${dir} is being written by ${who}. ${advice}`);
}

/** A holder on another machine cannot be asked and counts as alive; a lock that cannot be read was cut short by a crash. */
function isAlive(text: string): boolean {
  const holder = parseHolder(text);
  if (holder === null) return false;
  if (holder.host !== hostname()) return true;
  try {
    process.kill(holder.pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ESRCH") return false;
  }
  return holder.started === null || startOf(holder.pid) === holder.started;
}

function parseHolder(text: string): Holder | null {
  try {
    const value = JSON.parse(text) as Partial<Holder> | null;
    const { pid, host, started = null, token = "" } = value ?? {};
    if (!Number.isSafeInteger(pid) || pid! <= 0 || typeof host !== "string") return null;
    return { pid: pid!, host, started: typeof started === "string" ? started : null, token };
  } catch {
    return null;
  }
}

/** Field 22 of /proc/<pid>/stat (proc manual, section 5); null where there is none. */
function startOf(pid: number): string | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    return stat.slice(stat.lastIndexOf(")") + 2).split(" ")[19] ?? null;
  } catch {
    return null;
  }
}

async function readIfThere(path: string): Promise<string | null> {
  try {
    return await readFile(path, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
}
