import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, openApp, openList, SCREENS, serveApp, type WatchedPage } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const TREES = 60;
const folder = mkdtempSync(join(tmpdir(), "boughline-time-"));
let browser: Browser;
let server: Server;
let address: string;

beforeAll(async () => {
  for (const [name, bytes] of smallPlanFiles(TREES)) writeFileSync(join(folder, name), bytes);
  ({ server, address } = await serveApp({ path: "/plan/current/", folder }));
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true });
});

/** How many trees a chip of the list counts. */
async function chip(page: Page, word: string): Promise<number> {
  const text = (await page.locator("filter-chips .chip", { hasText: word }).first().textContent()) ?? "";
  return Number(/\d[\d,]*/.exec(text)?.[0].replace(",", ""));
}

describe.each(SCREENS.filter(({ name }) => name !== "tablet"))("through time on a $name", (screen) => {
  let watched: WatchedPage;
  let page: Page;
  let bob: Locator;

  beforeAll(async () => {
    watched = await openApp(browser, address, screen);
    page = watched.page;
    await drawn(page);
    await page.getByRole("button", { name: "Look ahead" }).waitFor({ timeout: 120_000 });
    bob = page.getByRole("slider", { name: "Date shown on map and list" });
  });

  afterAll(async () => {
    watched?.expectQuiet();
    await watched?.close();
  });

  test("the keyboard sets a date, list and map follow, and Escape leads back", async () => {
    await openList(page, "Trees");
    const nowToday = await chip(page, "Now");
    const nextToday = await chip(page, "Next window");
    await page.getByRole("button", { name: "Look ahead" }).focus();
    await page.keyboard.press("Enter");
    // The handle takes the keyboard, so that the arrows go on from there.
    for (let year = 1; year < 4; year += 1) await page.keyboard.press("PageUp");
    await page.keyboard.press("ArrowRight");
    const ribbon = page.locator("date-ribbon section");
    await expect.poll(() => bob.getAttribute("aria-valuenow")).toBe("49");
    expect(await ribbon.getByRole("heading").textContent()).toMatch(/^1 [A-Z][a-z]{2} \d{4}$/);
    await page.getByRole("button", { name: "If nothing is done" }).click();
    await expect.poll(() => chip(page, "Next window")).toBeGreaterThan(nextToday);
    expect(await page.locator("tree-list [role=option]").first().textContent()).toContain("Overdue");
    await page.getByRole("button", { name: "As planned" }).click();
    await expect.poll(() => chip(page, "Now")).toBeLessThan(nowToday);
    // The map's own marks are those of the date: no more of them are urgent than the list counts.
    const urgent = () =>
      page.evaluate(() => {
        const { map } = document.querySelector("map-view") as unknown as {
          map: { querySourceFeatures(id: string): { properties: { tree: string; urgency: string } }[] };
        };
        const marks = map
          .querySourceFeatures("boughline-trees")
          .filter(({ properties }) => properties.urgency === "now");
        return new Set(marks.map(({ properties }) => properties.tree)).size;
      });
    const counted = await chip(page, "Now");
    await expect.poll(urgent, { timeout: 30_000 }).toBe(counted);
    expect(await accessFaults(page)).toEqual([]);
    await bob.focus();
    await page.keyboard.press("Escape");
    await expect.poll(() => chip(page, "Now")).toBe(nowToday);
    expect(await page.getByRole("button", { name: "Look ahead" }).count()).toBe(1);
  });

  test("the handle is dragged, a tree's card tells of the date, and one click leads back", async () => {
    const box = (await bob.boundingBox())!;
    const stage = (await page.locator("months-strip .stage").boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(stage.x + stage.width * 0.5, box.y + 4, { steps: 4 });
    await page.mouse.up();
    await expect.poll(async () => Number(await bob.getAttribute("aria-valuenow"))).toBeGreaterThan(20);
    await page.locator("tree-list [role=option]").first().click();
    await page.locator("tree-then").getByText("Forecast crown").waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: /^Back to \d+ \w+ \d+$/ }).click();
    await expect.poll(() => page.locator("tree-then section").count()).toBe(0);
    await page.getByRole("button", { name: "Back to trees" }).click();
  });

  test("the list keeps to what the map shows, is filtered by street and sorted by it", async () => {
    await openList(page, "Trees");
    const status = page.locator("filter-chips [role=status]");
    await page.getByLabel("Only what the map shows").check();
    await page.locator("map-view canvas").focus();
    for (let zoom = 0; zoom < 3; zoom += 1) await page.keyboard.press("Equal");
    await expect.poll(() => status.textContent(), { timeout: 30_000 }).toMatch(/^\s*\d[\d,]* of [\d,]+ trees in view/);
    await expect
      .poll(async () => Number.parseInt(((await status.textContent()) ?? "").trim(), 10), { timeout: 30_000 })
      .toBeLessThan(TREES);
    await page.getByRole("button", { name: "Show all trees" }).click();
    await page.locator("filter-chips summary").click();
    const street = page.getByLabel("Street", { exact: true });
    const name = (await street.locator("option").nth(2).getAttribute("value")) ?? "";
    await street.selectOption(name);
    await expect.poll(() => status.textContent()).toMatch(/\d+ of [\d,]+ trees/);
    await page.getByLabel("Sort by").selectOption("due");
    expect(await accessFaults(page)).toEqual([]);
    await page.getByRole("button", { name: "Show all trees" }).click();
    await page.getByLabel("Sort by").selectOption("urgency");
  });

  test("trees stand as solids when asked, and the map lies flat again", async () => {
    await page.locator("tree-list [role=option]").first().click();
    await page.getByRole("button", { name: "Back to trees" }).click();
    const model = page.getByRole("button", { name: "3-D", exact: true });
    await model.click();
    await page.getByText(/trees? at true size|trees in view stand/).waitFor({ timeout: 90_000 });
    const tilt = () =>
      page.evaluate(() =>
        (document.querySelector("map-view") as unknown as { map: { getPitch(): number } }).map.getPitch(),
      );
    expect(await tilt()).toBeGreaterThan(50);
    await page.getByLabel("Tilt").press("ArrowLeft");
    await expect.poll(tilt).toBeLessThan(58);
    expect(await accessFaults(page)).toEqual([]);
    await model.click();
    await expect.poll(tilt).toBe(0);
  });
});

test("a key of the months shows one crew's work and trees, and all again", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await drawn(page);
  await openList(page, "Trees");
  const status = page.locator("filter-chips [role=status]");
  const all = await status.textContent();
  await page.getByRole("button", { name: "By crew" }).click();
  const ground = page.locator("months-strip .key").getByRole("button", { name: /^ground crew/ });
  await ground.click();
  await expect.poll(() => status.textContent()).toMatch(/\d+ of [\d,]+ trees/);
  expect(await ground.getAttribute("aria-pressed")).toBe("true");
  await ground.click();
  await expect.poll(() => status.textContent()).toBe(all);
  expectQuiet();
  await close();
});
