import type { Server } from "node:http";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { smallPlan, smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, drop, openApp, SCREENS, serveApp } from "./app-page.ts";
import { openView, sideViews } from "./app-views.ts";
import { launchChromium } from "./chromium.ts";
import { treesCsv } from "./city-files.ts";

const COUNT = 30;
const PLAN = smallPlan(COUNT);
const [ZONE] = PLAN.zones;
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

/** A crew's report of one visit, as the phone page hands it over. */
const report = JSON.stringify({
  format: "boughline-completion",
  version: 1,
  appVersion: "0.1.0",
  planId: PLAN.planId,
  revision: PLAN.revision,
  zoneId: ZONE!.zoneId,
  reportId: "alder",
  exportedAt: "2026-11-20T16:00:00Z",
  who: "R. Alder",
  crewHours: 9,
  notes: "",
  visits: [
    {
      visitId: ZONE!.visitIds[0],
      treeId: ZONE!.treeIds[0],
      outcome: "done",
      reason: null,
      date: "2026-11-20",
      who: "R. Alder",
      crownBaseM: null,
      headroomM: null,
      doseShare: 0.14,
      notes: "",
      photos: [],
      recordedAt: "2026-11-20T15:00:00Z",
    },
  ],
  addedTrees: [],
  hazards: [],
});

const LOOKS = [DESK, PHONE].flatMap((screen) => (["light", "dark"] as const).map((theme) => ({ ...screen, theme })));

test.each(LOOKS)(
  "no view and no dialog has an access fault, on a $name, $theme",
  { timeout: 420_000 },
  async (look) => {
    const { page, expectQuiet, close } = await openApp(browser, address, look, look);
    const faults = new Map<string, string[]>();
    const check = async (name: string) => {
      const found = await accessFaults(page);
      if (found.length > 0) faults.set(name, found);
    };

    await page.getByRole("button", { name: "Choose files" }).waitFor();
    await check("start");
    await drop(page, [["trees.csv", treesCsv(60)]]);
    await page
      .locator("intake-sheet [role=status]")
      .getByText(/^60 read/)
      .waitFor({ timeout: 60_000 });
    await check("intake");
    await page.getByRole("button", { name: "Close" }).click();

    await drop(page, [...smallPlanFiles(COUNT)]);
    await drawn(page);
    for (const [name, query] of sideViews("T-1", ZONE!.zoneId)) {
      await openView(page, query);
      await check(name);
    }
    await openView(page, `zone=${ZONE!.zoneId}`);
    await page.locator("zone-sheet").getByRole("button", { name: "Change order" }).click();
    await check("order of a zone");

    await drop(page, [["alder.json", report]]);
    await page.locator("record-sheet").getByText("visit will be recorded").waitFor();
    await check("record");
    await page.locator("record-sheet").getByRole("button", { name: "Close" }).click();

    await openView(page, "");
    await ahead(page);
    await check("another date");
    if (look.name === "desk") {
      await page.getByRole("button", { name: "Ten years" }).click();
      await page.locator("years-dialog dialog[open]").waitFor();
      await check("ten years");
      await page.keyboard.press("Escape");
      await page.getByRole("button", { name: "Print map" }).click();
      await page.locator("print-view").getByText("Print at 100 %").waitFor({ timeout: 120_000 });
      await check("print");
    }
    expect(Object.fromEntries(faults)).toEqual({});
    expectQuiet();
    await close();
  },
);

async function ahead(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Look ahead" }).click();
  const bob = page.getByRole("slider", { name: "Date shown on map and list" });
  await bob.focus();
  await page.keyboard.press("PageUp");
  await expect.poll(async () => Number(await bob.getAttribute("aria-valuenow"))).toBeGreaterThan(0);
}
