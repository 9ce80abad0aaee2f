import type { Server } from "node:http";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { smallPlan, smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, drop, openApp, openList, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 30;
const PHONE = SCREENS[2];
const [ZONE] = smallPlan(COUNT).zones;
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

/** The page with the small plan dropped on it, at the first of its zones. */
async function atZone(screen: (typeof SCREENS)[number]) {
  const watched = await openApp(browser, address, screen);
  await drop(watched.page, [...smallPlanFiles(COUNT)]);
  await drawn(watched.page);
  await openList(watched.page, "Zones");
  await watched.page.locator("zone-list li button").first().click();
  await watched.page.locator("zone-sheet").getByRole("heading", { name: ZONE!.name }).waitFor();
  return watched;
}

const stateShown = (page: Page) =>
  page.locator("zone-sheet dl dt", { hasText: "State" }).locator("xpath=following-sibling::dd[1]");

describe("work zones by hand", () => {
  test.each([SCREENS[0], SCREENS[2]])(
    "state, name and order are changed, undone by key, and kept across a reload, on a $name",
    async (screen) => {
      const { page, expectQuiet, close } = await atZone(screen);
      const sheet = page.locator("zone-sheet");
      await sheet.getByLabel("State").selectOption("issued");
      await expect.poll(() => stateShown(page).textContent()).toContain("Issued");
      await page.locator("body").press("Control+z");
      await expect.poll(() => stateShown(page).textContent()).toContain("Draft");
      await expect.poll(() => sheet.getByLabel("State").inputValue()).toBe("draft");

      await sheet.getByRole("button", { name: "Rename" }).click();
      await sheet.getByLabel("New name").fill("Mill side");
      await page.keyboard.press("Enter");
      await sheet.getByRole("heading", { name: "Mill side" }).waitFor();

      await sheet.getByRole("button", { name: "Change order" }).click();
      const lines = page.locator("order-list li");
      const second = await lines.nth(1).locator(".tree").textContent();
      await lines.nth(1).getByRole("button", { name: /up$/ }).click();
      await expect.poll(() => lines.first().locator(".tree").textContent()).toBe(second);
      await lines
        .last()
        .getByRole("button", { name: /out of the zone$/ })
        .click();
      await expect.poll(() => lines.count()).toBe(ZONE!.treeIds.length - 1);
      expect(await accessFaults(page)).toEqual([]);

      // On a phone the title gives way to the sheet.
      await page.getByText(/^Saved in this browser/).waitFor({ state: "attached" });
      await page.reload();
      await page.getByRole("button", { name: /Go on/ }).first().click();
      await drawn(page);
      await openList(page, "Zones");
      await page.locator("zone-list li", { hasText: "Mill side" }).click();
      await expect
        .poll(() => page.locator("zone-sheet tree-list [role=option]").count())
        .toBe(ZONE!.treeIds.length - 1);
      expectQuiet();
      await close();
    },
  );

  test("an outline drawn on the map shows what it would make, and refuses trees of another zone with a way out", async () => {
    const { page, expectQuiet, close } = await atZone(PHONE);
    await page.getByRole("button", { name: /Back to/ }).click();
    await page.locator("zone-list").getByRole("button", { name: "Draw a zone" }).click();
    const bar = page.locator("draw-bar");
    await bar.getByText(/Click the corners/).waitFor();
    const box = (await page.locator("map-view canvas").first().boundingBox())!;
    const corners = [
      [0.03, 0.2],
      [0.97, 0.2],
      [0.97, 0.75],
      [0.03, 0.75],
      [0.03, 0.75],
    ] as const;
    for (const [across, down] of corners) {
      const [x, y] = [box.x + box.width * across, box.y + box.height * down];
      await page.mouse.move(x, y, { steps: 4 });
      await page.mouse.down();
      await page.mouse.up();
      // Two clicks in quick succession would be one double click.
      await page.waitForTimeout(400);
    }
    await bar
      .getByText(/another zone|in zone/i)
      .first()
      .waitFor();
    expect(await accessFaults(page)).toEqual([]);
    await bar.getByRole("button", { name: "Cancel" }).click();
    expect(await bar.locator("section").count()).toBe(0);
    expectQuiet();
    await close();
  });

  test("a tree is put into a zone of its own from its card", async () => {
    const { page, expectQuiet, close } = await atZone(PHONE);
    await page.locator("zone-sheet tree-list [role=option]").first().click();
    const choice = page.getByLabel("Work zone");
    await choice.selectOption({ label: "A new zone for this tree" });
    await expect.poll(() => page.locator("zone-sheet tree-list [role=option]").count()).toBe(1);
    await openList(page, "Zones");
    await page.locator("zone-list").getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => page.locator("zone-list li").count()).toBe(1);
    expectQuiet();
    await close();
  });
});
