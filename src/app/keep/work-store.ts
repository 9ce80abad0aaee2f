import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from "idb";
import { type EditRecord, parseEditRecord } from "./edit-record.ts";
import { type KeptEntry, type KeptWork, parseKeptWork } from "./kept-work.ts";
import { StorageFault, storageFault } from "./storage-fault.ts";

export const DATABASE = "boughline";
/** A page meets a database of a later version as closed, and leaves it alone. */
export const DATABASE_VERSION = 1;
/** Milliseconds after which a browser that neither opens nor refuses its storage counts as one without. Our policy. */
const PATIENCE_MS = 8_000;

/** Values come back as anything: other scripts and versions of the page write here too. */
interface Tables extends DBSchema {
  works: { key: string; value: unknown };
  files: { key: [string, string]; value: unknown; indexes: { key: string } };
  edits: { key: number; value: unknown; indexes: { key: string } };
}

/** A kept plan, read whole. */
export interface KeptPlan {
  readonly work: KeptWork;
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly edits: readonly EditRecord[];
  /** Stored edits that could not be read; they stay where they are. */
  readonly unread: number;
}

/** What became of edits that were to be appended. `missing`: the plan is not kept (any more). `other-writer`: edits of someone else are there. */
export type Appended = "kept" | "missing" | "other-writer";

/**
 * The plans kept in this browser: of each a row of facts, its files, and a journal of edits. Every change is one transaction and counts
 * only once the browser says it is complete and flushed. All methods throw StorageFault.
 */
export class WorkStore {
  private constructor(private readonly database: IDBPDatabase<Tables>) {}

  /** Opens the store; `onLost` is told when the browser or a newer page closes it. Throws StorageFault where there is none. */
  static async open(onLost: () => void): Promise<WorkStore> {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<never>((_, reject) => {
      timer = setTimeout(() => reject(new StorageFault("blocked")), PATIENCE_MS);
    });
    try {
      if (globalThis.indexedDB == null) throw new StorageFault("blocked");
      const opening = openDB<Tables>(DATABASE, DATABASE_VERSION, {
        upgrade(database) {
          database.createObjectStore("works", { keyPath: "key" });
          database.createObjectStore("files", { keyPath: ["key", "name"] }).createIndex("key", "key");
          database.createObjectStore("edits", { keyPath: "order", autoIncrement: true }).createIndex("key", "key");
        },
        // A newer page may change the database, and a reader may delete it: neither should wait for this page.
        blocking: (_old, _new, event) => {
          (event.target as IDBDatabase).close();
          onLost();
        },
        terminated: onLost,
      });
      return new WorkStore(await Promise.race([opening, late]));
    } catch (error) {
      throw storageFault(error);
    } finally {
      clearTimeout(timer);
    }
  }

  /** All kept plans, the last worked on first. */
  async entries(): Promise<KeptEntry[]> {
    return this.guarded(async () => {
      const found = (await this.database.getAll("works")).map(parseKeptWork).filter((entry) => entry !== null);
      const time = (entry: KeptEntry) => (entry.is === "whole" ? entry.work.at : "");
      return found.sort((one, other) => time(other).localeCompare(time(one)));
    });
  }

  /** The facts of one kept plan; null where it is not kept. */
  async entry(key: string): Promise<KeptEntry | null> {
    return this.guarded(async () => parseKeptWork(await this.database.get("works", key)));
  }

  /** A kept plan with its files and edits; null where it is not kept. Throws StorageFault `newer` or `broken` for one that cannot be used. */
  async read(key: string): Promise<KeptPlan | null> {
    return this.guarded(async () => {
      const tx = this.database.transaction(["works", "files", "edits"]);
      const [row, stored, journal] = await Promise.all([
        tx.objectStore("works").get(key),
        tx.objectStore("files").index("key").getAll(key),
        tx.objectStore("edits").index("key").getAll(key),
      ]);
      await tx.done;
      const entry = parseKeptWork(row);
      if (entry === null) return null;
      if (entry.is !== "whole") throw new StorageFault(entry.is);
      const files = new Map<string, Uint8Array>();
      for (const value of stored) {
        const { name, content } = value as { name?: unknown; content?: unknown };
        if (typeof name === "string" && content instanceof Blob)
          files.set(name, new Uint8Array(await content.arrayBuffer()));
      }
      if (!entry.work.files.every((name) => files.has(name))) throw new StorageFault("broken");
      return { work: entry.work, files, ...editsIn(journal, entry.work.edits) };
    });
  }

  /** The edits of a kept plan alone, for one whose facts or files are damaged. */
  async journal(key: string): Promise<Pick<KeptPlan, "edits" | "unread">> {
    return this.guarded(async () => editsIn(await this.database.getAllFromIndex("edits", "key", key), 0));
  }

  /** Keeps a plan whole, in place of what was kept under its key and under that of the plan it `replaces`. Throws StorageFault `newer` where that is of a later version. */
  async keep(
    work: KeptWork,
    files: ReadonlyMap<string, Uint8Array>,
    edits: readonly EditRecord[],
    replaces: string | null,
  ): Promise<void> {
    await this.guarded(async () => {
      const tx = this.database.transaction(["works", "files", "edits"], "readwrite", { durability: "strict" });
      // Each request fails with the transaction, whose end is what counts.
      const done = tx.done;
      done.catch(() => {});
      const there = parseKeptWork(await tx.objectStore("works").get(work.key));
      if (there?.is === "newer") throw await abandoned(tx, new StorageFault("newer"));
      for (const key of replaces === null ? [work.key] : [work.key, replaces]) await removeFrom(tx, key);
      settle(tx.objectStore("works").put(work));
      for (const [name, bytes] of files) {
        const content = new Blob([bytes as Uint8Array<ArrayBuffer>]);
        settle(tx.objectStore("files").put({ key: work.key, name, content }));
      }
      for (const edit of edits) settle(tx.objectStore("edits").put({ key: work.key, edit }));
      await done;
    });
  }

  /** Appends edits to a kept plan of which the caller knows `known` edits so far, and takes over its newest view and time. */
  async append(
    key: string,
    newest: Pick<KeptWork, "at" | "view">,
    edits: readonly EditRecord[],
    known: number,
  ): Promise<Appended> {
    return this.guarded(async () => {
      const tx = this.database.transaction(["works", "edits"], "readwrite", { durability: "strict" });
      const done = tx.done;
      done.catch(() => {});
      const there = parseKeptWork(await tx.objectStore("works").get(key));
      if (there?.is === "newer") throw await abandoned(tx, new StorageFault("newer"));
      const count = await tx.objectStore("edits").index("key").count(key);
      if (there?.is !== "whole") return abandoned(tx, "missing");
      if (there.work.edits !== known || count < known) return abandoned(tx, count < known ? "missing" : "other-writer");
      settle(tx.objectStore("works").put({ ...there.work, ...newest, edits: known + edits.length }));
      for (const edit of edits) settle(tx.objectStore("edits").put({ key, edit }));
      await done;
      return "kept";
    });
  }

  /** Forgets a plan with its files and edits, of whatever version: the reader asked for it. */
  async forget(key: string): Promise<void> {
    await this.guarded(async () => {
      const tx = this.database.transaction(["works", "files", "edits"], "readwrite", { durability: "strict" });
      await removeFrom(tx, key);
      await tx.done;
    });
  }

  close(): void {
    this.database.close();
  }

  private async guarded<T>(act: () => Promise<T>): Promise<T> {
    try {
      return await act();
    } catch (error) {
      throw storageFault(error);
    }
  }
}

/** The edits in stored values, of which there were at least so many. */
function editsIn(stored: readonly unknown[], known: number): Pick<KeptPlan, "edits" | "unread"> {
  const edits = stored.map((value) => parseEditRecord((value as { edit?: unknown }).edit));
  const read = edits.filter((edit) => edit !== null);
  return { edits: read, unread: Math.max(edits.length, known) - read.length };
}

type Writing = IDBPTransaction<Tables, ("works" | "files" | "edits")[], "readwrite">;

async function removeFrom(tx: Writing, key: string): Promise<void> {
  settle(tx.objectStore("works").delete(key));
  const files = tx.objectStore("files");
  for (const file of await files.index("key").getAllKeys(key)) settle(files.delete(file));
  const edits = tx.objectStore("edits");
  for (const edit of await edits.index("key").getAllKeys(key)) settle(edits.delete(edit));
}

/** Ends a transaction without a change and gives the value. */
async function abandoned<T>(tx: { abort(): void; readonly done: Promise<void> }, value: T): Promise<T> {
  tx.abort();
  await tx.done.catch(() => {});
  return value;
}

/** A request whose failure is told by its transaction. */
function settle(request: Promise<unknown>): void {
  request.catch(() => {});
}
