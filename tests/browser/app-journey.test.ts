import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { LAYERS } from "../../src/core/model/terms.ts";
import { drawn, drop, openApp, openList, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";
import { openPhone } from "./phone-page.ts";

const TOWN = new URL("../../sample-geojson/", import.meta.url);
const FILES = LAYERS.map((layer) => [`${layer}.geojson`, readFileSync(new URL(`${layer}.geojson`, TOWN))] as const);
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

const saved = async (page: Page, button: string): Promise<Uint8Array> => {
  const [download] = await Promise.all([
    page.waitForEvent("download", { timeout: 120_000 }),
    page.getByRole("button", { name: button }).click(),
  ]);
  return new Uint8Array(readFileSync(await download.path()));
};

/** Names of the zone's trees as the sheet lists them, in order of work. */
const zoneTrees = (page: Page) => page.locator("zone-sheet tree-list [role=option] .name .small").allTextContents();

test("five drops and clicks from files to a packet; then conflicts, a filter, a zone made, edited, undone, packed and opened again", {
  timeout: 480_000,
}, async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  let acts = 0;
  const act = async (doing: Promise<unknown>) => {
    acts += 1;
    await doing;
  };
  await act(drop(page, FILES));
  await act(page.getByRole("button", { name: "Make the plan" }).click());
  await drawn(page);
  await act(page.locator("side-sheet nav").getByRole("button", { name: "Zones" }).click());
  await act(page.locator("zone-list li button").first().click());
  await page.getByRole("heading", { name: "Order of work" }).waitFor();
  const [download] = await Promise.all([
    page.waitForEvent("download", { timeout: 120_000 }),
    act(page.getByRole("button", { name: "Download packet" }).click()),
  ]);
  expect(acts).toBeLessThanOrEqual(5);
  expect(Object.keys(unzipSync(new Uint8Array(readFileSync(await download.path()))))).toContain("sheets.pdf");

  // Conflicts of the most urgent tree, and the list narrowed to its likes.
  await openList(page, "Trees");
  await page.locator("filter-chips .chip", { hasText: "Now" }).click();
  const status = page.locator("filter-chips [role=status]");
  await expect.poll(() => status.textContent()).toMatch(/[1-9]\d* of [\d,]+ trees/);
  const first = page.locator("tree-list [role=option]").first();
  const id = ((await first.locator(".name .small").textContent()) ?? "").trim();
  await first.click();
  const card = page.locator("boughline-tree-card");
  await card.getByRole("heading", { name: new RegExp(id) }).waitFor();
  await card
    .getByRole("heading", { name: /conflict/i })
    .first()
    .waitFor();

  // A zone of its own for the tree, with a name and a state; the state is taken back.
  await page.getByLabel("Work zone").selectOption({ label: "A new zone for this tree" });
  await expect.poll(() => zoneTrees(page)).toEqual([id]);
  const sheet = page.locator("zone-sheet");
  await sheet.getByRole("button", { name: "Rename" }).click();
  await sheet.getByLabel("New name").fill("School side");
  await page.keyboard.press("Enter");
  await sheet.getByRole("heading", { name: "School side" }).waitFor();
  await sheet.getByLabel("State").selectOption("issued");
  await expect.poll(() => sheet.getByLabel("State").inputValue()).toBe("issued");
  await page.locator("body").press("Control+z");
  await expect.poll(() => sheet.getByLabel("State").inputValue()).toBe("draft");

  // Its packet opens as the crew's page with just that tree, and the plan opens again with the zone in it.
  const packet = unzipSync(await saved(page, "Download packet"));
  expect(new TextDecoder().decode(packet["order-of-work.csv"])).toContain(id);
  const phone = await openPhone(browser, new TextDecoder().decode(packet["phone.html"]));
  await phone.page.getByText(id).first().waitFor();
  phone.expectQuiet();
  await phone.close();
  const zip = await saved(page, "Save plan as zip");
  expectQuiet();
  await close();

  const again = await openApp(browser, address, SCREENS[0]);
  await again.page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(again.page, [["plan.zip", zip]]);
  await drawn(again.page);
  await openList(again.page, "Zones");
  await again.page.locator("zone-list li button", { hasText: "School side" }).click();
  await expect.poll(() => zoneTrees(again.page)).toEqual([id]);
  again.expectQuiet();
  await again.close();
});
