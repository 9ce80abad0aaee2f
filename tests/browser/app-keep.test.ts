import type { Server } from "node:http";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { zip } from "../../src/formats/zip.ts";
import { smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, drop, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 12;
/** For what a page does after a click, on a machine busy with other things. */
const PATIENT = { timeout: 60_000 };
const PLAN = zip([...smallPlanFiles(COUNT)].map(([name, bytes]) => ({ name, bytes })));
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
  context = await browser.newContext({ viewport: SCREENS[0], reducedMotion: "reduce", acceptDownloads: true });
  complaints = [];
});

afterEach(async () => {
  await context.close();
  expect(complaints).toEqual([]);
});

/** A page of the one browser profile, opened at the start; `before` runs ahead of the page's own scripts. */
async function newPage(before?: () => void): Promise<Page> {
  const page = await context.newPage();
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  if (before !== undefined) await page.addInitScript(before);
  await page.goto(address);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  return page;
}

async function openZip(page: Page, bytes: Uint8Array = PLAN): Promise<void> {
  await drop(page, [["plan.zip", bytes]]);
  await drawn(page);
}

interface App extends Element {
  readonly hand: { readonly opened: { readonly plan: { readonly zones: readonly { readonly name: string }[] } } };
  readonly desk: {
    editZones(zones: readonly object[], label: string): void;
    readonly keep: { readonly state: { readonly is: string; readonly edits?: number } };
  };
}

/** Renames the plan's first zone, as any edit of zones by hand does it; `padding` makes the edit large. */
const rename = (page: Page, name: string, padding = 0) =>
  page.evaluate(
    ([to, bytes]) => {
      const app = document.querySelector("boughline-app") as App;
      // Random letters, since the browser packs what it keeps.
      const random = (length: number) => {
        let text = "";
        while (text.length < length) text += String.fromCharCode(0x4e00 + Math.floor(Math.random() * 20_000));
        return text;
      };
      const hazards = bytes === 0 ? [] : [random(bytes / 3)];
      const zones = app.hand.opened.plan.zones.map((zone, at) => (at === 0 ? { ...zone, name: to, hazards } : zone));
      app.desk.editZones(zones, "Rename");
    },
    [name, padding] as const,
  );

const zoneName = (page: Page) =>
  page.evaluate(() => (document.querySelector("boughline-app") as App).hand.opened.plan.zones[0]?.name);

const status = (page: Page) => page.locator("keep-line").getByRole("status");
const saved = (page: Page, edits: number) =>
  page.locator("keep-line").getByText(`Saved in this browser with ${edits} edit`).waitFor();

async function goOn(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Go on with/ }).click();
  await drawn(page);
}

// With the map, a few times over; `keep-closed.test.ts` does it oftener without.
describe("work is kept", () => {
  test("three edits, each shown as saved before its tab is closed, are all there", { timeout: 600_000 }, async () => {
    let page = await newPage();
    await openZip(page);
    for (let edit = 1; edit <= 3; edit += 1) {
      await rename(page, `Zone of edit ${edit}`);
      await saved(page, edit);
      await page.close();
      page = await newPage();
      await page.getByText(`${edit} edit`).waitFor();
      await goOn(page);
      expect(await zoneName(page)).toBe(`Zone of edit ${edit}`);
    }
    expect(await accessFaults(page)).toEqual([]);
  });

  test("what is shown as saved survives a crash of the page", { timeout: 600_000 }, async () => {
    for (let crash = 1; crash <= 2; crash += 1) {
      const page = await newPage();
      if (crash === 1) await openZip(page);
      else await goOn(page);
      await rename(page, `Before crash ${crash}`);
      await saved(page, crash);
      const gone = page.waitForEvent("crash");
      const devtools = await context.newCDPSession(page);
      // The command never answers: the page it goes to is gone.
      devtools.send("Page.crash").catch(() => {});
      await gone;
      await page.close();
    }
    const page = await newPage();
    await goOn(page);
    expect(await zoneName(page)).toBe("Before crash 2");
  });

  test("closed without waiting, each tab leaves its edit whole or not at all", { timeout: 600_000 }, async () => {
    let page = await newPage();
    await openZip(page);
    await rename(page, "0");
    await saved(page, 1);
    for (let edit = 1; edit <= 3; edit += 1) {
      await rename(page, String(edit));
      await page.close();
      page = await newPage();
      await goOn(page);
      expect(["0", ...Array.from({ length: edit }, (_, at) => String(at + 1))]).toContain(await zoneName(page));
    }
    expect(await status(page).textContent()).toMatch(/^\s*Saved in this browser/);
  });

  test("the start page says what is kept, and forgets it on demand", async () => {
    let page = await newPage();
    expect(await page.getByRole("heading", { name: "Go on with" }).count()).toBe(0);
    await openZip(page);
    expect(await page.locator("keep-line").getByText("Saved in this browser").count()).toBe(0);
    await rename(page, "Renamed");
    await saved(page, 1);
    await page.close();
    page = await newPage();
    await page.getByText(/1 edit, last on .* 12 trees, 1 zone, revision 1/).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: /^Forget/ }).click();
    await page.getByRole("button", { name: /for good$/ }).click();
    await expect.poll(() => page.getByRole("heading", { name: "Go on with" }).count(), PATIENT).toBe(0);
    const left = await page.evaluate(async () => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open("boughline");
        request.onsuccess = () => resolve(request.result);
      });
      const count = (name: string) =>
        new Promise((resolve) => {
          const request = database.transaction(name).objectStore(name).count();
          request.onsuccess = () => resolve(request.result);
        });
      return Promise.all(["works", "files", "edits"].map(count));
    });
    expect(left).toEqual([0, 0, 0]);
  });

  test("edits can be left out again, and the plan is as it was opened", async () => {
    const page = await newPage();
    await openZip(page);
    await rename(page, "Renamed");
    await saved(page, 1);
    await page.getByRole("button", { name: "Forget the edits" }).click();
    await page.getByRole("button", { name: "Forget 1 edit" }).click();
    await expect.poll(() => zoneName(page), PATIENT).toBe("Chapel Street 1");
  });

  test("a zip of edited work opens as the next revision", async () => {
    const page = await newPage();
    await openZip(page);
    await rename(page, "For the zip");
    await saved(page, 1);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save plan as zip" }).click(),
    ]);
    expect(download.suggestedFilename()).toContain("revision-2");
    await page.getByText("Saved as a zip, which opens here again.").waitFor();
    await page.getByText("revision 2").first().waitFor();
    const bytes = await import("node:fs/promises").then(async (fs) => fs.readFile(await download.path()));
    const other = await browser.newContext({ viewport: SCREENS[0] });
    const fresh = await other.newPage();
    await fresh.goto(address);
    await fresh.getByRole("button", { name: "Choose files" }).waitFor();
    await openZip(fresh, bytes);
    expect(await zoneName(fresh)).toBe("For the zip");
    await other.close();
  });
});

describe("two tabs on one plan", () => {
  const withoutLocks = () => Object.defineProperty(navigator, "locks", { value: undefined });
  test.each([
    ["with locks", undefined],
    ["in a browser without locks", withoutLocks],
  ])("%s the second may look, and takes over when the first is closed", { timeout: 300_000 }, async (_, before) => {
    const first = await newPage(before);
    await openZip(first);
    await rename(first, "By the first");
    await saved(first, 1);
    const second = await newPage(before);
    await goOn(second);
    await second.getByText("Another tab has this plan.").waitFor();
    expect(await accessFaults(second)).toEqual([]);
    await rename(second, "By the second");
    await second.getByText("Another page has this plan; it may not be changed here.").waitFor();
    expect(await zoneName(second)).toBe("By the first");
    for (let edit = 2; edit <= 5; edit += 1) await rename(first, `By the first ${edit}`);
    await saved(first, 5);
    await first.close();
    await second.getByText("The other tab is closed.").waitFor();
    await expect.poll(() => zoneName(second), PATIENT).toBe("By the first 5");
    await rename(second, "By the second");
    await saved(second, 6);
    await second.close();
    const third = await newPage(before);
    await goOn(third);
    expect(await zoneName(third)).toBe("By the second");
    await saved(third, 6);
  });
});

describe("storage that fails", () => {
  test("full: nothing is shown as saved, a copy can be had, and small edits go on once there is room", {
    timeout: 180_000,
  }, async () => {
    const page = await newPage();
    // From the start: the browser remembers for half a minute how much room there was.
    const devtools = await context.newCDPSession(page);
    const { origin } = new URL(address);
    await devtools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 2_000_000 });
    await openZip(page);
    await rename(page, "Small");
    await saved(page, 1);
    await rename(page, "Large", 9_000_000);
    await expect
      .poll(() => status(page).textContent(), { timeout: 60_000 })
      .toContain("Not saved. The browser has no room left for it.");
    expect(await page.locator("keep-line").getByText("Saved in this browser").count()).toBe(0);
    expect(await zoneName(page)).toBe("Large");
    expect(await accessFaults(page)).toEqual([]);
    await devtools.send("Storage.overrideQuotaForOrigin", { origin });
    await rename(page, "Small again");
    await saved(page, 3);
    await page.close();
    const again = await newPage();
    await goOn(again);
    expect(await zoneName(again)).toBe("Small again");
  });

  test("full: the copy opens to the same plan", { timeout: 300_000 }, async () => {
    const page = await newPage();
    const devtools = await context.newCDPSession(page);
    await devtools.send("Storage.overrideQuotaForOrigin", { origin: new URL(address).origin, quotaSize: 1_000 });
    await openZip(page);
    await rename(page, "Not kept");
    await page.getByText("Not saved.").waitFor();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save plan as zip" }).click(),
    ]);
    const bytes = await import("node:fs/promises").then(async (fs) => fs.readFile(await download.path()));
    await page.close({ runBeforeUnload: false });
    const fresh = await newPage();
    await openZip(fresh, bytes);
    expect(await zoneName(fresh)).toBe("Not kept");
  });

  test.each([
    ["is not there", () => Object.defineProperty(window, "indexedDB", { value: undefined })],
    [
      "throws",
      () =>
        Object.defineProperty(window, "indexedDB", {
          get() {
            throw new DOMException("blocked", "SecurityError");
          },
        }),
    ],
  ])("storage that %s: the page works, says so, and asks before it is closed", async (_, before) => {
    const page = await newPage(before);
    await openZip(page);
    await rename(page, "In memory");
    await page.getByText("Not saved. This browser keeps nothing for the page").waitFor();
    expect(await zoneName(page)).toBe("In memory");
    const asked = page.waitForEvent("dialog");
    await page.close({ runBeforeUnload: true });
    const dialog = await asked;
    expect(dialog.type()).toBe("beforeunload");
    await dialog.accept();
  });

  test("deleted while the page is open, it is filled again from the page", async () => {
    const page = await newPage();
    await openZip(page);
    await rename(page, "One");
    await saved(page, 1);
    await page.evaluate(
      () =>
        new Promise<void>((resolve, reject) => {
          const request = indexedDB.deleteDatabase("boughline");
          request.onsuccess = () => resolve();
          request.onerror = request.onblocked = () => reject(new Error("not deleted"));
        }),
    );
    await rename(page, "Two");
    await saved(page, 2);
    await page.close();
    const again = await newPage();
    await goOn(again);
    expect(await zoneName(again)).toBe("Two");
  });

  test("junk and hostile texts in it are shown as text or passed over", async () => {
    const page = await newPage();
    await openZip(page);
    await rename(page, "Good");
    await saved(page, 1);
    await page.close();
    const writer = await newPage();
    await writer.evaluate(async () => {
      const database = await new Promise<IDBDatabase>((resolve) => {
        const request = indexedDB.open("boughline");
        request.onsuccess = () => resolve(request.result);
      });
      const work = await new Promise<{ key: string }>((resolve) => {
        const request = database.transaction("works").objectStore("works").getAll();
        request.onsuccess = () => resolve(request.result[0]);
      });
      const tx = database.transaction(["works", "edits"], "readwrite");
      tx.objectStore("works").put({ key: "junk", format: "<img src=x onerror='window.__pwned=1'>" });
      tx.objectStore("works").put({ key: "newer", format: 99, name: "<img src=x onerror='window.__pwned=1'>" });
      tx.objectStore("edits").put({ key: work.key, edit: { kind: "zone-edit", payload: { zones: "junk" } } });
      tx.objectStore("edits").put({
        key: work.key,
        edit: { id: "1", planId: "p", revision: 1, kind: "from-tomorrow", payload: {}, at: "2026-11-03T00:00:00.000Z" },
      });
      await new Promise((resolve) => tx.addEventListener("complete", resolve));
      database.close();
    });
    await writer.close();
    const again = await newPage();
    await again.getByText("Kept by a newer Boughline").waitFor();
    await again.getByText("A plan that cannot be read").waitFor();
    await again.getByText("<img src=x", { exact: false }).waitFor();
    await goOn(again);
    expect(await zoneName(again)).toBe("Good");
    await again.getByText("2 of 3 kept edits could not be read and were left out.").waitFor();
    expect(await again.evaluate(() => (window as { __pwned?: unknown }).__pwned)).toBeUndefined();
  });

  test("a newer version's storage is left alone, and the page works on", async () => {
    const page = await newPage();
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const request = indexedDB.open("boughline", 2);
          request.onupgradeneeded = () => request.result.createObjectStore("treasure").put("gold", "x");
          request.onsuccess = () => {
            request.result.close();
            resolve();
          };
        }),
    );
    await openZip(page);
    await rename(page, "In memory");
    await expect
      .poll(() => status(page).textContent(), PATIENT)
      .toContain("A newer Boughline keeps its work in this browser");
    const treasure = await page.evaluate(
      () =>
        new Promise((resolve) => {
          const request = indexedDB.open("boughline");
          request.onsuccess = () => {
            const get = request.result.transaction("treasure").objectStore("treasure").get("x");
            get.onsuccess = () => resolve([request.result.version, get.result]);
          };
        }),
    );
    expect(treasure).toEqual([2, "gold"]);
  });
});
