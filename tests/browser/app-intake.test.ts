import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { accessFaults, drawn, drop, openApp, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";
import { cityGeoPackage, SECRET, treesCsv } from "./city-files.ts";

const ROADS_ZIP = new URL("../formats/read/fixtures/roads.zip", import.meta.url);
let browser: Browser;
let server: Server;
let address: string;
let geoPackage: Uint8Array;

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
  geoPackage = await cityGeoPackage();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** Waits until the files were looked at as they now are. */
const looked = (page: Page, counts: RegExp) =>
  page.locator("intake-sheet [role=status]").getByText(counts).waitFor({ timeout: 60_000 });
const nav = (page: Page) => page.getByRole("navigation", { name: "What is on the table" });

test.each([SCREENS[0], SCREENS[2]])(
  "from a CSV, a GeoPackage of several tables and a zipped shapefile to trees, with one column corrected, on a $name",
  { timeout: 240_000 },
  async (screen) => {
    const { page, expectQuiet, close } = await openApp(browser, address, screen);
    await page.getByRole("button", { name: "Choose files" }).waitFor();
    await drop(page, [
      ["inventory.csv", treesCsv(400)],
      ["city.gpkg", geoPackage],
      ["more_roads.zip", new Uint8Array(readFileSync(ROADS_ZIP))],
    ]);
    // 400 trees, one without a position; 112 streets and those of the shapefile; 787 houses.
    await looked(page, /used, 1 set aside/);
    expect(await accessFaults(page)).toEqual([]);

    // The heights are in a column that no guess finds: it is given, then its unit is corrected.
    await page.getByLabel("Another field").selectOption("height");
    const column = page.getByLabel("Column for Height", { exact: true });
    await column.selectOption("Total");
    await expect.poll(() => column.inputValue()).toBe("Total");
    await page.getByLabel("Unit of Height", { exact: true }).selectOption("ft");
    await page.getByText("You chose it; all its values can be read.").waitFor();

    // The tables of the GeoPackage were told apart; of one, only some features are wanted.
    await nav(page)
      .getByRole("button", { name: /^Left out/ })
      .click();
    expect(await page.getByLabel("Layer of hydrants in city.gpkg").inputValue()).toBe("");
    await nav(page)
      .getByRole("button", { name: /^Roads 2 files/ })
      .click();
    const card = page.locator("source-card").filter({ hasText: "street_centerlines" });
    await card.getByText("Only some of its features").click();
    await card.getByLabel("Column that street_centerlines in city.gpkg is picked by").selectOption("KIND");
    await card.getByRole("checkbox", { name: /^Road/ }).check();
    await card.getByRole("checkbox", { name: /^Alley/ }).check();
    expect(await card.getByLabel(/^Only features of/).inputValue()).toBe("KIND one of Road, Alley");
    await card.getByText("112 read: 84 used, none set aside, 28 left out by the filter").waitFor();
    expect(await accessFaults(page)).toEqual([]);

    await nav(page)
      .getByRole("button", { name: /^Clearances/ })
      .click();
    expect(await accessFaults(page)).toEqual([]);
    await page.getByLabel("As of").fill("2026-11-02");
    await page.getByRole("button", { name: "Make the plan" }).click();
    await drawn(page);
    expect(await page.locator("tree-list [role=option]").count()).toBeGreaterThan(0);

    await page.locator("tree-list [role=option]").first().click();
    const cardOfTree = page.locator("boughline-tree-card");
    await cardOfTree.getByRole("heading", { level: 2 }).waitFor();
    // Only what feeds a field is shown of the city's columns, until somebody chooses more.
    const columns = cardOfTree.locator("summary").filter({ hasText: "own columns" });
    await columns.click();
    await cardOfTree.locator("dt").getByText("TREE_ID").waitFor();
    expect(await shadowText(page)).not.toContain(SECRET);
    await cardOfTree.getByRole("checkbox", { name: "INSPECTOR" }).check();
    await cardOfTree.locator("dd").getByText(SECRET).waitFor();
    expect(await accessFaults(page)).toEqual([]);
    expectQuiet();
    await close();
  },
);

test("the column map is saved as it stands, and a run with it guesses nothing", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [["trees.csv", treesCsv(60)]]);
  await looked(page, /^60 read/);
  await page.getByLabel("Column for Condition").selectOption("");
  await expect.poll(() => page.getByLabel("Column for Condition").count()).toBe(0);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save the column map" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("columns.json");
  const saved = readFileSync(await download.path(), "utf8");
  expect(JSON.parse(saved).trees.dbh).toEqual({ column: "DBH (in)", unit: "in", zero: "unknown" });
  expect(JSON.parse(saved).trees.condition).toBeUndefined();
  await page.getByRole("button", { name: "Close" }).click();
  await drop(page, [
    ["trees.csv", treesCsv(60)],
    ["columns (1).json", saved],
  ]);
  await page.getByText("As columns (1).json says.").waitFor();
  expect(await page.getByLabel("Column for Condition").count()).toBe(0);
  expect(await page.getByLabel(/^Column for Stem diameter/).inputValue()).toBe("DBH (in)");
  expectQuiet();
  await close();
});

test("a city's own clearances are shown merged, and one below a legal floor is said", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  const own = { extends: "us-common", title: "Our city", rules: { "walkway-headroom": { minimum: "6 ft" } } };
  await drop(page, [
    ["trees.csv", treesCsv(60)],
    ["our values.json", JSON.stringify(own)],
  ]);
  await nav(page)
    .getByRole("button", { name: /^Clearances.*1 below a legal floor/ })
    .click();
  await page.getByRole("row", { name: /walkway-headroom, minimum 8 ft 6 ft/ }).waitFor();
  await page.getByText(/The minimum of 6 ft is below the legal floor of 80 in/).waitFor();
  expect(await accessFaults(page)).toEqual([]);
  await page.getByRole("button", { name: "Take our values.json off" }).click();
  await nav(page)
    .getByRole("button", { name: /^Clearances Common clearances/ })
    .waitFor();
  expectQuiet();
  await close();
});

test("by keyboard alone: files, a unit, the plan", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [["trees.csv", treesCsv(60)]]);
  await looked(page, /^60 read/);
  const unit = page.getByLabel(/^Unit of Crown spread/);
  await tabTo(page, "Unit of Crown spread");
  await page.keyboard.press("m");
  await expect.poll(() => unit.inputValue()).toBe("m");
  await tabTo(page, "Make the plan");
  await page.keyboard.press("Enter");
  await drawn(page);
  expectQuiet();
  await close();
});

test("values of columns not used are shown only when asked for", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [["trees.csv", treesCsv(60)]]);
  await looked(page, /^60 read/);
  await page.getByText(/^Columns not used/).click();
  await page.locator("column-table li").filter({ hasText: "INSPECTOR" }).waitFor();
  expect(await shadowText(page)).not.toContain(SECRET);
  await page.getByRole("button", { name: "Show their values here" }).click();
  await page.locator("column-table li").filter({ hasText: SECRET }).waitFor();
  expect(await accessFaults(page)).toEqual([]);
  expectQuiet();
  await close();
});

test("a packet and the phone's lists hold nothing of an unmapped column; the plan's own zip does", {
  timeout: 240_000,
}, async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [
    ["trees.csv", treesCsv(400)],
    ["city.gpkg", geoPackage],
  ]);
  await looked(page, /read/);
  await page.getByLabel("As of").fill("2026-11-02");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await drawn(page);
  await page.locator("side-sheet nav").getByRole("button", { name: "Zones" }).click();
  await page.locator("zone-list li button").first().click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page
      .getByRole("button", { name: /packet/i })
      .first()
      .click(),
  ]);
  const packet = unzipSync(new Uint8Array(readFileSync(await download.path())));
  expect(Object.keys(packet).length).toBeGreaterThan(4);
  for (const [name, bytes] of Object.entries(packet)) {
    expect(Buffer.from(bytes).includes(SECRET), name).toBe(false);
  }
  const [plan] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save plan as zip" }).click(),
  ]);
  const files = unzipSync(new Uint8Array(readFileSync(await plan.path())));
  // Nothing is lost: the city's own columns stay with its trees.
  expect(Buffer.from(files["trees.geojson"]!).includes(SECRET)).toBe(true);
  expectQuiet();
  await close();
});

/** Presses Tab until the element with that name has the focus; fails after four hundred. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let presses = 0; presses < 400; presses += 1) {
    await page.keyboard.press("Tab");
    const focused = await page.evaluate(() => {
      let active = document.activeElement;
      while (active?.shadowRoot?.activeElement != null) active = active.shadowRoot.activeElement;
      return `${active?.getAttribute("aria-label") ?? active?.textContent ?? ""}`.trim();
    });
    if (focused.startsWith(name)) return;
  }
  throw new Error(`Expected Tab to reach ${name}`);
}

/** All text that stands on the page, in its parts too. */
const shadowText = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const textOf = (root: Document | ShadowRoot | Element): string =>
      [...root.querySelectorAll("*")]
        .flatMap((element) => [
          ...(element.shadowRoot === null ? [] : [textOf(element.shadowRoot)]),
          ...[...element.childNodes].flatMap((node) =>
            node.nodeType === Node.TEXT_NODE ? [node.textContent ?? ""] : [],
          ),
        ])
        .join(" ");
    return textOf(document);
  });
