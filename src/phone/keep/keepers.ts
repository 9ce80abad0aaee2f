/** A place on the device that keeps one text. Both throw or reject when it cannot. */
export interface Keeper {
  read(): Promise<string | null>;
  /** Settles when the text is kept, not merely asked for. */
  write(text: string): Promise<void>;
  /** The same without waiting, where the place can do that: a page may be closed right after a tap. */
  readonly atOnce?: { read(): string | null; write(text: string): void };
}

/** The page's local storage. It answers at once, and reading back proves it. */
export function localKeeper(key: string): Keeper {
  const atOnce = {
    read: () => localStorage.getItem(key),
    write(text: string) {
      localStorage.setItem(key, text);
      if (localStorage.getItem(key) !== text) throw new Error("Expected local storage to hold what was written");
    },
  };
  return { read: async () => atOnce.read(), write: async (text) => atOnce.write(text), atOnce };
}

const STORE = "marks";

/** The page's database: slower, but it outlives a killed browser once a write is through. */
export function databaseKeeper(key: string): Keeper {
  let opened: Promise<IDBDatabase> | null = null;
  const open = (): Promise<IDBDatabase> => {
    opened ??= new Promise((resolve, reject) => {
      const request = indexedDB.open("boughline-phone", 1);
      request.onupgradeneeded = () => request.result.createObjectStore(STORE);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
      request.onblocked = () => reject(new Error("Expected a database of this version, got one held open by another"));
    });
    return opened;
  };
  return {
    async read() {
      const database = await open();
      return new Promise((resolve, reject) => {
        const request = database.transaction(STORE, "readonly").objectStore(STORE).get(key);
        request.onsuccess = () => resolve(typeof request.result === "string" ? request.result : null);
        request.onerror = () => reject(request.error);
      });
    },
    async write(text) {
      const database = await open();
      return new Promise((resolve, reject) => {
        const transaction = database.transaction(STORE, "readwrite", { durability: "strict" });
        transaction.objectStore(STORE).put(text, key);
        transaction.oncomplete = () => resolve();
        // A full disk shows as an abort without an error of the request.
        transaction.onabort = () =>
          reject(transaction.error ?? new Error("Expected the write to be kept, got an abort"));
      });
    },
  };
}
