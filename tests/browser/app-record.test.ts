import type { Server } from "node:http";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Completion, VisitCompletion } from "../../src/core/plan/completion/completion.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { smallPlan, smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, drop, openApp, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 30;
const PLAN = smallPlan(COUNT);
const ZONE = PLAN.zones[0]!;
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

const entry = (at: number, more: Partial<VisitCompletion> = {}): VisitCompletion => ({
  visitId: ZONE.visitIds[at]!,
  treeId: ZONE.treeIds[at]!,
  outcome: "done",
  reason: null,
  date: isoDate("2026-11-20"),
  who: "R. Alder",
  crownBaseM: null,
  headroomM: null,
  doseShare: 0.14,
  notes: "",
  photos: [],
  recordedAt: "2026-11-20T15:00:00Z",
  ...more,
});

function report(reportId: string, visits: readonly VisitCompletion[], more: Partial<Completion> = {}): string {
  const completion: Completion = {
    format: "boughline-completion",
    version: 1,
    appVersion: "0.1.0",
    planId: PLAN.planId,
    revision: PLAN.revision,
    zoneId: ZONE.zoneId,
    reportId,
    exportedAt: "2026-11-20T16:00:00Z",
    who: "R. Alder",
    crewHours: 9,
    notes: "",
    visits,
    addedTrees: [],
    hazards: [],
    ...more,
  };
  return JSON.stringify(completion);
}

describe.each([SCREENS[0], SCREENS[2]])("what crews report, on a $name", (screen) => {
  test("it is shown, decided on, taken as the next revision, and not taken twice", async () => {
    const { page, expectQuiet, close } = await openApp(browser, address, screen);
    await drop(page, [...smallPlanFiles(COUNT)]);
    await drawn(page);
    const alder = report("alder", [
      entry(0, { crownBaseM: 4.2 }),
      entry(1, { outcome: "partly", reason: "out-of-time", notes: "<b>north</b> side left" }),
    ]);
    const birch = report("birch", [
      entry(0, { who: "K. Birch", outcome: "not-done", reason: "weather", doseShare: null }),
    ]);
    await drop(page, [
      ["alder.json", alder],
      ["birch.json", birch],
      ["other.json", report("other", [entry(2)], { planId: "another-plan" })],
    ]);
    const sheet = page.locator("record-sheet");
    await sheet.getByText(/1 visit will be recorded, 2 to decide/).waitFor();
    await sheet.getByText(/belongs to plan "another-plan"/).waitFor();
    // What a crew wrote is text and nothing else.
    await sheet.getByText("<b>north</b> side left").waitFor();
    expect(await accessFaults(page)).toEqual([]);

    await sheet.locator("section.conflict li", { hasText: "Done 20 Nov 2026" }).first().getByRole("checkbox").click();
    await sheet.getByText(/2 visits will be recorded/).waitFor();
    await sheet.getByRole("button", { name: "Record 2 visits" }).click();
    await page.getByText(/So far 1 visit done, 1 partly, 0 not/).waitFor();
    await page
      .getByText(/revision 2/)
      .first()
      .waitFor({ state: "attached" });

    await page.locator(".notice").getByRole("button", { name: "Close" }).click();
    await drop(page, [["alder.json", alder]]);
    await sheet.getByText(/0 visits will be recorded, 2 recorded already/).waitFor();
    expect(await sheet.getByRole("button", { name: "Record", exact: true }).isDisabled()).toBe(true);
    expectQuiet();
    await close();
  });
});

test("a report without a plan at hand says to open the plan first", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("heading", { level: 1 }).waitFor();
  await drop(page, [["alder.json", report("alder", [entry(0)])]]);
  await page.getByText(/open the plan first/).waitFor();
  expect(await page.locator("intake-sheet dialog").count()).toBe(0);
  expectQuiet();
  await close();
});
