import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { contentPolicy } from "../../src/cli/server/content-policy.ts";
import { serveFolders } from "../../src/cli/server/static-server.ts";
import { openList } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const APP = fileURLToPath(new URL("../../dist/app/", import.meta.url));

let browser: Browser;
let folder: string;
let server: Server;
let address: string;
let context: BrowserContext;

beforeAll(async () => {
  browser = await launchChromium();
}, 60_000);
afterAll(() => browser.close());

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "boughline-offline-"));
  await cp(APP, folder, { recursive: true });
  ({ server, address } = await serveFolders([{ path: "/", folder }], 0, contentPolicy([])));
  context = await browser.newContext({ viewport: { width: 1200, height: 800 } });
});
afterEach(async () => {
  await context.close();
  server.closeAllConnections();
  server.close();
  await rm(folder, { recursive: true, force: true });
});

/** Opens the page and waits until the browser keeps all of it. */
async function openKept(): Promise<Page> {
  const page = await context.newPage();
  await page.goto(address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await expect
    .poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null), { timeout: 60_000 })
    .toBe(true);
  return page;
}

const versionOf = (page: Page) =>
  page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith("boughline-page ")));

test("opens without its server after the first visit, and plans, zones and packs the sample town then", async () => {
  const page = await openKept();
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  server.closeAllConnections();
  await new Promise((done) => server.close(done));
  await context.setOffline(true);
  await page.reload();
  await page.getByRole("button", { name: "Open the sample town" }).click();
  await page.getByRole("heading", { name: "Sample town", level: 1 }).waitFor({ timeout: 240_000 });
  await openList(page, "Zones");
  await page.locator("zone-list li button").first().click();
  const [download] = await Promise.all([
    page.waitForEvent("download", { timeout: 90_000 }),
    page.getByRole("button", { name: "Download packet" }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/\.zip$/);
  expect(complaints).toEqual([]);
}, 400_000);

test("a tab keeps its version while a newer one comes, says so, and the next visit opens the newer", async () => {
  const page = await openKept();
  const [first] = await versionOf(page);
  await writeFile(
    join(folder, "index.html"),
    (await readFile(join(folder, "index.html"), "utf8")).replace("<title>Boughline", "<title>Boughline 2"),
  );
  const script = await readFile(join(folder, "sw.js"), "utf8");
  await writeFile(
    join(folder, "sw.js"),
    script.replace(/version:[`"'][0-9a-f]{16}[`"']/, 'version:"ffffffffffffffff"'),
  );
  await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
  await expect.poll(() => page.getByRole("alert").textContent(), { timeout: 60_000 }).toContain("newer version");
  expect(await versionOf(page)).toContain(first);
  // The old tab, loaded anew while the newer version waits, is still the old page.
  await page.reload();
  expect(await page.title()).toBe("Boughline");
  await page.close();
  await expect
    .poll(
      async () => {
        const next = await context.newPage();
        await next.goto(address);
        const title = await next.title();
        await next.close();
        return title;
      },
      { timeout: 60_000 },
    )
    .toBe("Boughline 2");
}, 180_000);

test("a version that cannot be fetched whole is not taken", async () => {
  const page = await openKept();
  const before = await versionOf(page);
  const script = await readFile(join(folder, "sw.js"), "utf8");
  await writeFile(
    join(folder, "sw.js"),
    script
      .replace("index.html", "index.html,missing-file.js")
      .replace(/version:[`"'][0-9a-f]{16}[`"']/, 'version:"eeeeeeeeeeeeeeee"'),
  );
  await page.evaluate(async () => {
    const kept = await navigator.serviceWorker.ready;
    await kept.update().catch(() => undefined);
    await new Promise<void>((done) => {
      const coming = kept.installing;
      if (coming === null) return done();
      coming.addEventListener("statechange", () => coming.state === "redundant" && done());
    });
  });
  await page.reload();
  expect(await page.title()).toBe("Boughline");
  expect(await versionOf(page)).toEqual(expect.arrayContaining(before));
  expect(await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting === null)).toBe(
    true,
  );
}, 180_000);
