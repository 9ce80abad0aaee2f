import { mkdirSync, readFileSync } from "node:fs";
import type { Server } from "node:http";
import type { Browser, Download, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCsv } from "../../src/formats/csv.ts";
import { nextYear, townTrees } from "../formats/carry/next-year.ts";
import { type Files, recorded, reportOf, townPlan, zonesOf } from "../formats/plan/recorded-town.ts";
import { accessFaults, drawn, drop, openApp, SCREENS, serveApp } from "./app-page.ts";
import { openView } from "./app-views.ts";
import { launchChromium } from "./chromium.ts";

/** The pages beside the lists, worked through as a reader does: what hours buy, what to inspect, the check of finished work, and what changed in a year. */
const TREES = 40;
/** For what a page does after a click, on a machine busy with other things. */
const PATIENT = { timeout: 60_000 };
const STRICTER = {
  extends: "us-common",
  id: "stricter",
  title: "Stricter walks",
  rules: { "walkway-headroom": { minimum: "9 ft", clearTo: "10 ft" } },
};
/** Where pictures are laid for a person to look at; none are made without it. */
const PICTURES = process.env.BOUGHLINE_PICTURES;

let browser: Browser;
let server: Server;
let address: string;
/** The town's plan with its first zone reported as done, and the same a year later. */
let worked: Files;
let later: Files;
let zoneId: string;
let removedId: string;

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
  const planned = await townPlan(TREES);
  const zone = zonesOf(planned)[0]!;
  zoneId = zone.zone;
  ({ files: worked } = await recorded(planned, [reportOf(planned, zone, () => ({}))]));
  const done = new Set(zone.visit_ids.map((id) => id.slice(0, id.lastIndexOf("/v"))));
  const trees = townTrees(TREES);
  removedId = trees.findLast(({ properties: { id } }) => !done.has(id))!.properties.id;
  const inventory = trees.filter(({ properties: { id } }) => id !== removedId);
  const grown = inventory.map((tree, at) =>
    at % 7 === 3 && typeof tree.properties.dbh === "number"
      ? { ...tree, properties: { ...tree.properties, dbh: tree.properties.dbh + 6 } }
      : tree,
  );
  const earlier = { files: worked, since: planned, measuredOn: null };
  later = await nextYear({ trees: grown, asOf: "2027-11-02", earlier, standardJson: STRICTER });
}, 180_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** What is worked through is the same on a phone; there it is looked at. */
const SCREENS_NOW = PICTURES === undefined ? [SCREENS[0]] : [SCREENS[0], SCREENS[2]];

describe.each(SCREENS_NOW)("the pages beside the lists, on a $name", (screen) => {
  const picture = async (page: Page, name: string): Promise<void> => {
    if (PICTURES === undefined) return;
    mkdirSync(PICTURES, { recursive: true });
    await page.screenshot({ path: `${PICTURES}/${name}-${screen.width}.png` });
  };
  const opened = async (files: Files, query: string) => {
    const app = await openApp(browser, address, screen);
    await drop(app.page, [...files]);
    await drawn(app.page);
    await openView(app.page, query);
    return app;
  };

  test("the budget shows what hours buy and what stays open, and hands out its table", async () => {
    const { page, expectQuiet, close } = await opened(worked, "page=budget");
    const sheet = page.locator("budget-sheet");
    const hours = sheet.getByRole("spinbutton", { name: "Crew-hours" });
    await hours.waitFor(PATIENT);
    const visits = async () =>
      Number(
        await sheet
          .getByRole("row", { name: /^Chosen/ })
          .getByRole("cell")
          .nth(1)
          .textContent(),
      );
    const most = Number(await hours.getAttribute("max"));
    await setHours(hours, "0");
    await sheet.getByText(/Chosen, in this order/).waitFor({ state: "detached" });
    expect(await visits()).toBe(0);
    await setHours(hours, String(most));
    await sheet.getByText(/Stays open, by due date/).waitFor({ state: "detached" });
    const all = await visits();
    await setHours(hours, "8");
    await sheet.getByText(/Stays open, by due date/).waitFor(PATIENT);
    const bought = await visits();
    expect(bought).toBeGreaterThan(0);
    expect(bought).toBeLessThan(all);
    await sheet.getByText(`Chosen, in this order (${bought})`).click();
    await picture(page, "budget");
    expect(await accessFaults(page)).toEqual([]);

    const table = await textOf(page, () => sheet.getByRole("button", { name: "Save table" }).click());
    expect(table.name).toBe("budget-8-hours.csv");
    const [header = [], ...rows] = readCsv(table.text);
    const choice = header.indexOf("choice");
    expect(rows.length).toBe(all);
    expect(rows.filter((row) => row[choice] !== "left").length).toBe(bought);

    await sheet.getByRole("button", { name: "Show the chosen trees on the map" }).click();
    await sheet.getByRole("button", { name: "Show all trees on the map" }).waitFor(PATIENT);
    expectQuiet();
    await close();
  });

  test("what to inspect is settled with its progress, listed by rounds, stopped and begun again", async () => {
    const { page, expectQuiet, close } = await opened(worked, "page=inspect");
    const sheet = page.locator("inspect-sheet");
    await sheet.getByText(/in \d+ rounds?: conflicts that are only possible/).waitFor(PATIENT);
    const round = sheet.locator("details").first();
    await round.locator("summary").click();
    await round
      .getByText(/needed\.$/)
      .first()
      .waitFor();
    await picture(page, "inspect");
    expect(await accessFaults(page)).toEqual([]);
    const list = await textOf(page, () => sheet.getByRole("button", { name: "Save list" }).click());
    const [header = [], ...rows] = readCsv(list.text);
    const named = await round.locator("li button").allTextContents();
    expect(header[0]).toBe("round");
    expect(new Set(rows.flatMap((row) => (row[0] === rows[0]![0] ? [row[2]!] : [])))).toEqual(new Set(named));
    const [packet] = await Promise.all([
      page.waitForEvent("download", PATIENT),
      round.getByRole("button", { name: "Download packet" }).click(),
    ]);
    expect(packet.suggestedFilename()).toMatch(/^i-.*\.zip$/);

    // Another view and back begins anew; this time it is stopped, wherever it has come to.
    await openView(page, "list=legend");
    await page.evaluate(() => {
      const { prototype } = Worker;
      const post = prototype.postMessage;
      // The worker is never told to begin, so that there is time to stop it.
      prototype.postMessage = function (this: Worker, ...message: unknown[]) {
        if ((message[0] as { type?: string }).type !== "begin") post.apply(this, message as never);
      };
      Object.assign(globalThis, { letWork: () => Object.assign(prototype, { postMessage: post }) });
    });
    await openView(page, "page=inspect");
    await sheet.getByRole("progressbar").waitFor(PATIENT);
    await picture(page, "inspect-working");
    await sheet.getByRole("button", { name: "Cancel" }).click();
    await page.evaluate(() => (globalThis as unknown as { letWork(): void }).letWork());
    await sheet.getByRole("button", { name: "Start again" }).click();
    await sheet.getByText(/in \d+ rounds?: conflicts that are only possible/).waitFor(PATIENT);
    expectQuiet();
    await close();
  });

  test("trees of a finished zone are drawn to be checked, and one that does not pass gets a new visit", async () => {
    const { page, expectQuiet, close } = await opened(worked, `page=acceptance&of=${zoneId}`);
    const sheet = page.locator("acceptance-sheet");
    await sheet.getByText(/finished trees are to be checked: 0 passed/).waitFor(PATIENT);
    const first = sheet.locator("li").first();
    const treeId = (await first.locator("button").first().textContent()) ?? "";
    const visitsOf = () => page.evaluate(openVisits, treeId);
    const before = await visitsOf();
    const record = sheet.getByRole("button", { name: "Record", exact: true });
    expect(await record.isDisabled()).toBe(true);
    await first.getByRole("button", { name: "Make good" }).click();
    await sheet.getByText("Say what is to be made good.").waitFor();
    await first.getByLabel("What is to be made good").fill("Stubs left on the street side");
    await sheet.getByLabel("Checked by").fill("K. Birch");
    await sheet.getByLabel("On", { exact: true }).fill("2026-12-20");
    await picture(page, "acceptance");
    expect(await accessFaults(page)).toEqual([]);
    await record.click();
    await page.getByText("The checks are recorded.").waitFor(PATIENT);
    await sheet.getByText(/To be made good: Stubs left on the street side/).waitFor(PATIENT);
    expect(await visitsOf()).toBe(before + 1);
    await picture(page, "acceptance-rework");

    // A table of checks that is dropped is taken as well, or refused with its reason.
    const head = "tree,check,reason,checked_on,checked_by\n";
    await drop(page, [["checks.csv", `${head}${treeId},maybe,,2026-12-21,K. Birch\n`]]);
    await page
      .getByText(/checks\.csv cannot be used, and nothing was recorded\. Line 2: check is "maybe"/)
      .waitFor(PATIENT);
    await drop(page, [["checks.csv", `${head}no-such-tree,passed,,2026-12-21,K. Birch\n`]]);
    await page.getByText(/Nothing was recorded\. Nobody has reported tree no-such-tree as done/).waitFor(PATIENT);
    const second = await sheet.locator("li").nth(1).locator("button").first().textContent();
    await drop(page, [["checks.csv", `${head}${second},passed,,2026-12-21,K. Birch\n`]]);
    await page.getByText("Recorded 1 check: 1 passed.").waitFor(PATIENT);
    await sheet.getByText(/1 passed, 1 to be made good/).waitFor(PATIENT);
    expectQuiet();
    await close();
  });

  test("a year later the causes of what changed are counted, and one of them shows its trees", async () => {
    const { page, expectQuiet, close } = await opened(later, "page=changes");
    const sheet = page.locator("changes-sheet");
    await sheet.getByText(/Since revision 1, as of/).waitFor(PATIENT);
    await sheet.getByText(/1 removed/).waitFor();
    await picture(page, "changes");
    expect(await accessFaults(page)).toEqual([]);
    const { changes } = JSON.parse(new TextDecoder().decode(later.get("plan.json")));
    const causes = sheet.getByRole("group", { name: "Causes" }).getByRole("button");
    const standard = causes.filter({ hasText: "Standard" });
    expect(await standard.locator("b").nth(1).textContent()).toBe(String(changes.by_cause.rule));
    const sum = (await causes.locator("b:nth-of-type(2)").allTextContents()).reduce(
      (all, text) => all + Number(text),
      0,
    );
    expect(sum).toBe(changes.changed);
    await standard.click();
    await sheet.getByRole("heading", { name: `Standard (${changes.by_cause.rule})` }).waitFor();
    expect(await sheet.locator("li").count()).toBe(Math.min(60, changes.by_cause.rule));
    await picture(page, "changes-cause");
    expect(await accessFaults(page)).toEqual([]);
    await causes.filter({ hasText: "Inventory" }).click();
    await sheet.locator("li").filter({ hasText: removedId }).getByText("removed").waitFor();
    const table = await textOf(page, () => sheet.getByRole("button", { name: "Save table" }).click());
    expect(table.name).toBe("changes.csv");
    expect(table.text).toBe(new TextDecoder().decode(later.get("changes.csv")));
    await standard.click();
    await sheet.locator("li").getByRole("button").first().click();
    await page.locator("boughline-tree-card").waitFor(PATIENT);
    expectQuiet();
    await close();
  });
});

async function setHours(field: Locator, hours: string): Promise<void> {
  await field.fill(hours);
  await field.press("Tab");
}

/** What the reader gets as a file. */
async function textOf(page: Page, act: () => Promise<void>): Promise<{ readonly name: string; readonly text: string }> {
  const [download] = (await Promise.all([page.waitForEvent("download", PATIENT), act()])) as [Download, unknown];
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

/** How many visits a tree has in the plan at hand; runs in the page. */
function openVisits(treeId: string): number {
  const app = document.querySelector("boughline-app") as unknown as {
    hand: { opened: { plan: { prescriptions: { treeId: string; visits: object[] }[] } } };
  };
  return app.hand.opened.plan.prescriptions.find((one) => one.treeId === treeId)?.visits.length ?? 0;
}
