import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import { unzipSync, zipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { smallPlan, smallPlanFiles } from "../app/small-plan.ts";
import { drawn, openApp, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";
import { stop, tabTo } from "./keys.ts";

const COUNT = 30;
const [ZONE] = smallPlan(COUNT).zones;
const [DESK, , PHONE] = SCREENS;
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

/** Opens the small plan without a pointer, from the first key on. */
async function openByKeys(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  const buffer = Buffer.from(zipSync(Object.fromEntries(smallPlanFiles(COUNT)), { level: 1 }));
  page.once("filechooser", (chooser) => chooser.setFiles({ name: "plan.zip", mimeType: "application/zip", buffer }));
  await tabTo(page, "Choose files");
  await page.keyboard.press("Enter");
  await drawn(page);
}

/** Presses a key and waits until the keyboard stands on something again. */
async function press(page: Page, key: string): Promise<void> {
  await page.keyboard.press(key);
  await expect.poll(async () => (await stop(page)).name).not.toBe("");
}

test.each([DESK, PHONE])("by keys alone from files to a packet, on a $name", async (screen) => {
  const { page, expectQuiet, close } = await openApp(browser, address, screen);
  await openByKeys(page);
  // The start page went away with the button that was pressed; the list beside the map has the keyboard.
  await expect.poll(async () => (await stop(page)).name).not.toBe("");

  // List and filter.
  await tabTo(page, /^Now/, "Shift+Tab");
  await press(page, "Enter");
  const status = page.locator("filter-chips [role=status]");
  await expect.poll(() => status.textContent()).toMatch(/6 of 30 trees/);
  await tabTo(page, "Trees");
  await press(page, "ArrowDown");
  await press(page, "Enter");

  // A tree's card, then a zone of its own for it.
  await page.locator("boughline-tree-card").getByRole("heading", { level: 2 }).waitFor();
  await expect.poll(async () => (await stop(page)).name).toMatch(/Back to trees/);
  await tabTo(page, "Work zone");
  // One letter names it: of more the browser begins a new word where a slow machine lets too long pass between two.
  await page.keyboard.press("A");
  await page.keyboard.press("Enter");
  await expect.poll(() => page.locator("zone-sheet tree-list [role=option]").count()).toBe(1);
  await expect.poll(async () => (await stop(page)).name).not.toBe("");

  // The zones: the new one is there, is renamed, and both steps are taken back.
  await tabTo(page, /^(‹ )?Back to/, "Shift+Tab");
  await press(page, "Enter");
  await tabTo(page, /^(‹ )?Back to|^Zones/, "Shift+Tab");
  await press(page, "Enter");
  await expect.poll(() => page.locator("zone-list li").count()).toBe(2);
  await tabTo(page, new RegExp(ZONE!.name));
  await press(page, "Enter");
  await page.locator("zone-sheet").getByRole("heading", { name: ZONE!.name }).waitFor();
  await tabTo(page, "Rename");
  await press(page, "Enter");
  await tabTo(page, "New name");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("Mill side");
  await press(page, "Enter");
  await page.locator("zone-sheet").getByRole("heading", { name: "Mill side" }).waitFor();
  await press(page, "Control+z");
  await page.locator("zone-sheet").getByRole("heading", { name: ZONE!.name }).waitFor();
  await press(page, "Control+z");
  await expect.poll(() => page.locator("zone-sheet tree-list [role=option]").count()).toBe(ZONE!.treeIds.length);

  // The packet.
  await tabTo(page, "Download packet", "Shift+Tab");
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  const packet = unzipSync(new Uint8Array(readFileSync(await download.path())));
  expect(Object.keys(packet)).toEqual(expect.arrayContaining(["sheets.pdf", "phone.html"]));
  expectQuiet();
  await close();
});

test.each([DESK, PHONE])("every stop of the Tab key shows where it is, on a $name", async (screen) => {
  const { page, expectQuiet, close } = await openApp(browser, address, screen);
  await openByKeys(page);
  await expect.poll(async () => (await stop(page)).name).not.toBe("");
  const faults: string[] = [];
  const names = new Set<string>();
  for (let presses = 0; presses < 120; presses += 1) {
    await page.keyboard.press("Tab");
    const { name, isShown, isInSight } = await stop(page);
    if (names.size > 20 && names.has(name) && name.startsWith("Go to the list")) break;
    names.add(name);
    if (!isShown || !isInSight) faults.push(`${name}: ${isShown ? "out of sight" : "no outline"}`);
  }
  expect(faults).toEqual([]);
  for (const name of ["Go to the map", "Find a tree, species or street", "Print map", "Month the work is due"])
    expect(
      [...names].some((one) => one.startsWith(name)),
      name,
    ).toBe(true);
  expectQuiet();
  await close();
});

test("the first stops of the keyboard lead past the title to list, map and months", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, DESK);
  await openByKeys(page);
  for (const [link, at] of [
    ["Go to the list", "Trees"],
    ["Go to the map", "Map of the plan"],
    ["Go to the months", "Month the work is due"],
  ] as const) {
    await tabTo(page, link);
    await page.keyboard.press("Enter");
    await expect.poll(async () => (await stop(page)).name).toMatch(new RegExp(`^${at}`));
  }
  expectQuiet();
  await close();
});
