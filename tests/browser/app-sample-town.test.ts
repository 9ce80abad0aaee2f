import type { Server } from "node:http";
import type { Browser, Download, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { accessFaults, drawn, openApp, openList, SCREENS, serveApp, type WatchedPage } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

let browser: Browser;
let server: Server;
let address: string;

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe.each(SCREENS)("the sample town on a $name", (screen) => {
  let watched: WatchedPage;
  let page: Page;

  beforeAll(async () => {
    watched = await openApp(browser, address, screen);
    page = watched.page;
    await page.getByRole("button", { name: "Open the sample town" }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: "Open the sample town" }).click();
    await drawn(page);
  });

  afterAll(async () => {
    watched?.expectQuiet();
    await watched?.close();
  });

  test("a click on a tree's mark opens its card with its drawing", async () => {
    await openList(page, "Trees");
    const first = page.locator("tree-list [role=option]").first();
    const id = (await first.locator(".name .small").textContent())?.trim() ?? "";
    await first.click();
    await page.getByRole("button", { name: "Back to trees" }).click();
    await page.waitForTimeout(500);
    // The map stands at the tree now: its mark is in the middle.
    const box = (await page.locator("map-view").boundingBox())!;
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    const card = page.locator("boughline-tree-card");
    await card.getByRole("heading", { level: 2 }).waitFor();
    expect(await card.getByRole("heading", { level: 2 }).textContent()).toContain(id);
    // The drawing says in words what it shows, with figures.
    expect(await card.locator("figure svg desc").first().textContent()).toMatch(/\d+ (ft|in)/);
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: "Back to trees" }).click();
  });

  test("a filter leaves fewer trees, and no filter all of them", async () => {
    await openList(page, "Trees");
    const status = page.locator("filter-chips [role=status]");
    const all = await status.textContent();
    await page.locator("filter-chips .chip").first().click();
    await expect.poll(() => status.textContent()).toMatch(/\d+ of [\d,]+ trees/);
    await page.getByRole("button", { name: "Show all trees" }).click();
    await expect.poll(() => status.textContent()).toBe(all);
    expect(await accessFaults(page)).toEqual([]);
  });

  test("the packet of a zone is a zip", async () => {
    await openList(page, "Zones");
    expect(await accessFaults(page)).toEqual([]);
    await page.locator("zone-list li button").first().click();
    await page.getByRole("heading", { name: "Order of work" }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    const [download] = await Promise.all([
      page.waitForEvent("download", { timeout: 90_000 }),
      page.getByRole("button", { name: "Download packet" }).click(),
    ]);
    expect((await bytesOf(download)).subarray(0, 2).toString("latin1")).toBe("PK");
    await page.getByRole("button", { name: "Back to zones" }).click();
  });

  test("what is wrong in the town on purpose is found, and shown on the map", async () => {
    await openList(page, "Findings");
    await page.locator("findings-list summary").first().click();
    expect(await accessFaults(page)).toEqual([]);
    expect(await page.locator("findings-list details").count()).toBeGreaterThan(3);
    await openList(page, "Legend");
    expect(await accessFaults(page)).toEqual([]);
  });

  test("the plan is saved as a zip that opens again", async () => {
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save plan as zip" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("boughline-plan-Sample-town.zip");
    const zip = await bytesOf(download);
    await page.setInputFiles("input[type=file]", { name: "plan.zip", mimeType: "application/zip", buffer: zip });
    await page.getByRole("heading", { name: "trees", level: 1 }).waitFor();
    await drawn(page);
  });
});

async function bytesOf(download: Download): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}
