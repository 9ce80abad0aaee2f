import type { Page } from "playwright-core";

/** All that a browser profile keeps of plans, bit by bit. */
export interface KeptBytes {
  /** Of each kept plan its revision and how many edits it counts. */
  readonly works: readonly { readonly revision: number; readonly edits: number }[];
  /** Names of files of kept plans with their SHA-256, in order. */
  readonly files: readonly string[];
  /** Labels of kept edits, in order. */
  readonly edits: readonly string[];
}

/** Reads what is kept straight from the browser's storage, past the app's own reader. */
export const keptBytes = (page: Page): Promise<KeptBytes> =>
  page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open("boughline");
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const tables: Record<string, never[]> = {};
    for (const name of ["works", "files", "edits"]) {
      tables[name] = await new Promise((resolve, reject) => {
        const request = database.transaction(name).objectStore(name).getAll();
        request.onsuccess = () => resolve(request.result as never[]);
        request.onerror = () => reject(request.error);
      });
    }
    database.close();
    const files: string[] = [];
    for (const { name, content } of tables.files as { name: string; content: Blob }[]) {
      const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await content.arrayBuffer()));
      files.push(`${name} ${Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("")}`);
    }
    return {
      works: (tables.works as { revision: number; edits: number }[]).map(({ revision, edits }) => ({
        revision,
        edits,
      })),
      files,
      edits: (tables.edits as { edit: { payload: { label: string } } }[]).map(({ edit }) => edit.payload.label),
    };
  });
