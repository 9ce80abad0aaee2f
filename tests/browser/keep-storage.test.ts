import type { Server } from "node:http";
import type { Browser, BrowserContext } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";
import { keptBytes } from "./keep/kept-bytes.ts";
import { editLabels, keptPage, openZip, PATIENT, rename, saved, withoutMap, zoneName } from "./keep/kept-page.ts";
import { watchSaved } from "./keep/saved-witness.ts";

let browser: Browser;
let server: Server;
let address: string;
let context: BrowserContext;
let complaints: string[];

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

beforeEach(async () => {
  complaints = [];
  context = await browser.newContext({ viewport: SCREENS[0], reducedMotion: "reduce", serviceWorkers: "block" });
  await context.addInitScript(withoutMap);
});

afterEach(async () => {
  await context.close();
  expect(complaints).toEqual([]);
});

/** Ends every writing transaction of the page after its requests have succeeded, as a full disk does. */
function abortAfterSuccess() {
  const put = IDBObjectStore.prototype.put;
  Object.assign(IDBObjectStore.prototype, {
    put(this: IDBObjectStore, ...args: Parameters<IDBObjectStore["put"]>) {
      const request = put.apply(this, args);
      request.addEventListener("success", () => {
        try {
          this.transaction.abort();
        } catch {
          // Another request of it came first.
        }
      });
      return request;
    },
  });
}

/** Opens a storage that neither answers nor refuses. */
function neverOpens() {
  IDBFactory.prototype.open = () => Object.create(IDBOpenDBRequest.prototype, { addEventListener: { value() {} } });
}

describe("what is shown as saved", () => {
  test("is shown only once its transaction is complete: one that fails after its requests succeeded is not", async () => {
    const witness = await watchSaved(context);
    const page = await keptPage(context, address, complaints, abortAfterSuccess);
    await openZip(page);
    await rename(page, "In memory");
    await page.getByText("Not saved. The browser could not write it.").waitFor(PATIENT);
    expect(witness.edits).toBe(0);
    expect(await zoneName(page)).toBe("In memory");
    expect(await keptBytes(page)).toEqual({ works: [], files: [], edits: [] });
  });

  test("is nothing in a storage that never answers", async () => {
    const witness = await watchSaved(context);
    const page = await keptPage(context, address, complaints, neverOpens);
    await openZip(page);
    await rename(page, "In memory");
    await page.getByText("Not saved. This browser keeps nothing for the page").waitFor(PATIENT);
    expect(witness.edits).toBe(0);
    expect(await zoneName(page)).toBe("In memory");
  });
});

describe("work that is kept, and damaged from outside", () => {
  test.each([
    ["its facts are junk", "works"],
    ["a file of it is gone", "files"],
  ] as const)("%s: its edits are made again on the plan that is opened, and kept whole", async (_, table) => {
    const first = await keptPage(context, address, complaints);
    await openZip(first);
    await rename(first, "One");
    await rename(first, "Two");
    await saved(first, 2);
    await first.close();
    const writer = await keptPage(context, address, complaints);
    await writer.evaluate(async (damaged) => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open("boughline");
        request.onsuccess = () => resolve(request.result);
      });
      const tx = database.transaction(damaged, "readwrite");
      const store = tx.objectStore(damaged);
      store.getAllKeys().onsuccess = (event) => {
        const [key] = (event.target as IDBRequest<IDBValidKey[]>).result;
        if (damaged === "files") store.delete(key!);
        else store.put({ key, format: "junk" });
      };
      await new Promise((resolve) => tx.addEventListener("complete", resolve));
      database.close();
    }, table);
    await openZip(writer);
    await writer.getByText("is damaged. 2 edits of it could be read and are here again.").waitFor(PATIENT);
    expect(await zoneName(writer)).toBe("Two");
    await saved(writer, 2);
    await rename(writer, "Three");
    await saved(writer, 3);
    expect(await editLabels(writer)).toEqual(["One", "Two", "Three"]);
    expect((await keptBytes(writer)).edits).toEqual(["One", "Two", "Three"]);
  });

  test("kept by a newer version under the plan's own key, it is never written over", async () => {
    const first = await keptPage(context, address, complaints);
    await openZip(first);
    await rename(first, "One");
    await saved(first, 1);
    await first.close();
    const writer = await keptPage(context, address, complaints);
    await writer.evaluate(async () => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open("boughline");
        request.onsuccess = () => resolve(request.result);
      });
      const tx = database.transaction("works", "readwrite");
      const store = tx.objectStore("works");
      store.getAll().onsuccess = (event) => {
        const [work] = (event.target as IDBRequest<object[]>).result;
        store.put({ ...work, format: 99, revision: 7, edits: 5 });
      };
      await new Promise((resolve) => tx.addEventListener("complete", resolve));
      database.close();
    });
    const before = await keptBytes(writer);
    await openZip(writer);
    await rename(writer, "In memory");
    await writer.getByText("Not saved. A newer Boughline keeps its work").waitFor(PATIENT);
    expect(await zoneName(writer)).toBe("In memory");
    expect(await keptBytes(writer)).toEqual(before);
    expect(before.works).toEqual([{ revision: 7, edits: 5 }]);
  });
});
