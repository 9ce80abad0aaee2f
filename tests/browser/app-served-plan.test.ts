import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { smallPlan, smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, openApp, openList, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 60;
const plan = smallPlan(COUNT);
let browser: Browser;
let server: Server;
let address: string;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "boughline-"));
  for (const [name, bytes] of smallPlanFiles(COUNT)) writeFileSync(join(folder, name), bytes);
  ({ server, address } = await serveApp({ path: "/plan/current/", folder }));
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true });
});

const LOOKS = SCREENS.flatMap((screen) => (["light", "dark"] as const).map((theme) => ({ ...screen, theme })));

test.each(LOOKS)(
  "every view opens, is quiet and has no access fault on a $name, $theme",
  { timeout: 180_000 },
  async (look) => {
    const watched = await openApp(browser, address, look, look);
    const { page } = watched;
    await drawn(page);
    expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe(look.theme);
    expect(await accessFaults(page)).toEqual([]);

    await page.getByRole("button", { name: "Draw zones" }).click();
    await page.getByRole("button", { name: "Hide zones" }).waitFor();
    await page.locator("tree-list [role=option]").first().click();
    await page.locator("boughline-tree-card").getByRole("heading", { name: /T-1$/ }).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: "Back to trees" }).click();

    await openList(page, "Zones");
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: /Chapel Street 1/ }).click();
    await page.getByRole("heading", { name: "Order of work" }).waitFor();
    expect(await page.locator("zone-sheet tree-list [role=option]").count()).toBe(plan.zones[0]!.treeIds.length);
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: "Back to zones" }).click();

    await openList(page, "Findings");
    await page.locator("findings-list summary").click();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: "Show it" }).click();
    await page.getByRole("heading", { name: /T-3$/ }).waitFor();
    await page.getByRole("button", { name: "Back to findings" }).click();

    await openList(page, "Legend");
    expect(await accessFaults(page)).toEqual([]);
    watched.expectQuiet();
    await watched.close();
  },
);

test("the other theme is one click away", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await drawn(page);
  await page.getByRole("button", { name: "Dark page" }).click();
  await page.getByRole("button", { name: "Light page" }).waitFor();
  expect(await accessFaults(page)).toEqual([]);
  expectQuiet();
  await close();
});

test("the bars are split by urgency or by crew, and pointing at a month does not move the page", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await drawn(page);
  const strip = page.locator("months-strip");
  await strip.getByRole("button", { name: "By crew" }).click();
  await expect.poll(() => strip.locator(".key").textContent()).toContain("ground crew");
  const height = async () => (await strip.boundingBox())!.height;
  const before = await height();
  await strip.locator(".plot").hover();
  await expect.poll(() => strip.locator(".key").textContent()).toMatch(/\d h/);
  expect(await height()).toBe(before);
  expectQuiet();
  await close();
});

describe.each(SCREENS)("a served plan on a $name", (screen) => {
  test("filters, months and search narrow the list to the trees that pass", async () => {
    const { page, close, expectQuiet } = await openApp(browser, address, screen);
    await drawn(page);
    // Urgencies come round every fifth tree.
    await page.getByRole("button", { name: /^Now/ }).click();
    await page.getByText("12 of 60 trees").waitFor();
    // Of rows 0, 5, 10 ... 55 the visit falls due that many months after November 2026; the first month holds row 0 alone.
    const months = page.getByRole("slider", { name: /^Month the work is due/ });
    await months.focus();
    await page.keyboard.press("ArrowRight");
    await page.getByText("1 of 60 trees, due in Nov 2026").waitFor();
    expect(await page.locator("tree-list [role=option]").count()).toBe(1);
    await page.keyboard.press("Escape");
    await page.getByText("12 of 60 trees").waitFor();
    await page.getByRole("button", { name: "Show all trees" }).click();

    const field = page.getByRole("combobox", { name: "Find a tree, species or street" });
    await field.fill("oak");
    await page.locator("search-field").getByRole("option", { name: "English oak" }).click();
    // Species come round every third tree.
    await page.getByText("20 of 60 trees").waitFor();
    await field.fill("T-42");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: /T-42$/ }).waitFor();
    expectQuiet();
    await close();
  });

  test("the keyboard alone opens a tree and comes back to the same line", async () => {
    const { page, close } = await openApp(browser, address, screen);
    await drawn(page);
    const list = page.getByRole("listbox", { name: "Trees" });
    await list.focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    const back = page.getByRole("button", { name: "Back to trees" });
    await back.waitFor();
    expect(await back.evaluate((button) => (button.getRootNode() as ShadowRoot).activeElement === button)).toBe(true);
    await page.keyboard.press("Enter");
    await page.locator("tree-list [role=option][aria-selected=true]").waitFor();
    await close();
  });
});

test("lengths follow the units that are asked for", async () => {
  const { page, close } = await openApp(browser, address, SCREENS[0]);
  await drawn(page);
  // 0.8 m are 31.5 in: 2 ft 7 in and a half, written 2 ft 7 in.
  await page.getByText("Shorten by up to 2 ft 7 in").first().waitFor();
  await page.getByRole("button", { name: "Show meters" }).click();
  await page.getByText("Shorten by up to 0.8 m").first().waitFor();
  await close();
});

test("the packet of a zone is a zip", { timeout: 120_000 }, async () => {
  const { page, close, expectQuiet } = await openApp(browser, address, SCREENS[0]);
  await drawn(page);
  await openList(page, "Zones");
  await page.getByRole("button", { name: /Chapel Street 1/ }).click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Download packet" }).click(),
  ]);
  const chunks: Buffer[] = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer);
  expect(Buffer.concat(chunks).subarray(0, 2).toString("latin1")).toBe("PK");
  expect(download.suggestedFilename()).toMatch(/\.zip$/);
  expectQuiet();
  await close();
});
