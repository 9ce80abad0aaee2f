import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { enrich } from "../../src/cli/commands/enrich.ts";
import { buildApp, serveView } from "../../src/cli/commands/view.ts";
import { zone } from "../../src/cli/commands/zone.ts";
import { LAYERS } from "../../src/core/model/terms.ts";
import { launchChromium } from "../../tests/browser/chromium.ts";
import { cityGeoPackage, treesCsv } from "../../tests/browser/city-files.ts";
import { atRest } from "./at-rest.ts";
import { cutGuidePicture } from "./cut-guide-picture.ts";
import { palettePng } from "./palette-png.ts";
import { viewPictures } from "./view-pictures.ts";

// Draws the pictures of the documentation anew: plans the sample town, opens it in Chromium and photographs it. Run by
// `npm run screenshots`, or `-- NAME` for one of them, or `-- views [VIEW ...]` for the gallery of every view; the pictures depend on the fonts of the machine only where the page's own lack a character.

const HERE = fileURLToPath(new URL(".", import.meta.url));
const TOWN = fileURLToPath(new URL("../../sample-geojson/", import.meta.url));
const DESK = { width: 1440, height: 900 };
const PHONE = { width: 390, height: 844 };

/** A street tree with a bus route beside it: its card has most of what a card can have. */
const TREE_ID = "T-0124";
/** The zone of the guides. */
const ZONE_NAME = "Station Street 1";

const folder = mkdtempSync(join(tmpdir(), "boughline-images-"));
try {
  await enrich({
    ...Object.fromEntries(LAYERS.map((layer) => [layer, [`${TOWN}${layer}.geojson`]])),
    asOf: "2026-11-02",
    replace: true,
    out: folder,
  });
  await zone(folder, {});
  if (process.env.BUILT === undefined) await buildApp();
  const { server, address } = await serveView(folder, 0, { name: "Sample town" });
  const browser = await launchChromium();
  await picture(browser, address, "app-town-light", DESK, "light");
  await picture(browser, address, "app-town-dark", DESK, "dark");
  await picture(browser, address, "app-tree-light", DESK, "light", openTree);
  await picture(browser, address, "app-zone-light", DESK, "light", openZone);
  await picture(browser, address, "app-phone-light", PHONE, "light", openTree);
  await intakePicture(browser, address);
  if (isWanted("cut-guide")) writeFileSync(join(HERE, "cut-guide.png"), palettePng(await cutGuidePicture(browser)));
  const [view, ...names] = process.argv.slice(2);
  if (view === undefined || view === "views")
    await viewPictures(browser, address, { treeId: TREE_ID, zoneId: zoneIdIn(folder) }, names);
  await browser.close();
  server.close();
} finally {
  rmSync(folder, { recursive: true });
}

function zoneIdIn(plan: string): string {
  const { features } = JSON.parse(readFileSync(join(plan, "current/zones.geojson"), "utf8")) as {
    features: { properties: { zone: string; name: string } }[];
  };
  return features.find(({ properties }) => properties.name === ZONE_NAME)!.properties.zone;
}

/** Whether a picture is asked for by its name, or all are. */
function isWanted(name: string): boolean {
  const asked = process.argv.slice(2);
  return asked.length === 0 || asked.includes(name);
}

/** Photographs the page once its map has come to rest. */
async function picture(
  browser: Browser,
  address: string,
  name: string,
  viewport: { readonly width: number; readonly height: number },
  colorScheme: "light" | "dark",
  prepare?: (page: Page) => Promise<void>,
): Promise<void> {
  if (!isWanted(name)) return;
  const page = await browser.newPage({ viewport, colorScheme, reducedMotion: "reduce" });
  await page.goto(address);
  await page.waitForSelector("map-view[drawn]", { timeout: 120_000 });
  await prepare?.(page);
  await atRest(page);
  writeFileSync(join(HERE, `${name}.png`), palettePng(await page.screenshot()));
  process.stdout.write(`${name}.png\n`);
  await page.close();
}

/** Photographs the dropped files of a city beside its own clearances, before a plan is made of them. */
async function intakePicture(browser: Browser, address: string): Promise<void> {
  if (!isWanted("app-intake-light")) return;
  const page = await browser.newPage({ viewport: DESK, colorScheme: "light", reducedMotion: "reduce" });
  await page.goto(address);
  await page.waitForSelector("map-view[drawn]", { timeout: 120_000 });
  await page.locator("input[type=file]").setInputFiles([
    { name: "Street_Trees_2026.csv", mimeType: "text/csv", buffer: Buffer.from(treesCsv()) },
    { name: "city.gpkg", mimeType: "application/geopackage+sqlite3", buffer: Buffer.from(await cityGeoPackage()) },
    ...["paths", "signs"].map((layer) => ({
      name: `${layer}.geojson`,
      mimeType: "application/geo+json",
      buffer: readFileSync(`${TOWN}${layer}.geojson`),
    })),
  ]);
  await page.getByLabel("Another field").selectOption("height", { timeout: 120_000 });
  await page.getByLabel("Column for Height", { exact: true }).selectOption("Total");
  await page.getByLabel("Unit of Height", { exact: true }).selectOption("ft");
  await page.getByText("You chose it; all its values can be read.").waitFor();
  await page.getByLabel("As of").fill("2026-11-02");
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.waitForFunction(() => {
    const status = document.querySelector("intake-sheet")?.shadowRoot?.querySelector("[role=status]");
    return status?.textContent?.includes("read:") ?? false;
  });
  writeFileSync(join(HERE, "app-intake-light.png"), palettePng(await page.screenshot()));
  process.stdout.write("app-intake-light.png\n");
  await page.close();
}

async function openTree(page: Page): Promise<void> {
  const field = page.getByRole("combobox", { name: "Find a tree, species or street" });
  await field.fill(TREE_ID);
  await page.locator("search-field").getByRole("option").first().click();
  await page
    .locator("boughline-tree-card")
    .getByRole("heading", { name: new RegExp(TREE_ID) })
    .waitFor();
  // A field that waits for words would draw the eye.
  await page.evaluate(() => {
    const field = document.querySelector("title-block")?.shadowRoot?.querySelector("search-field");
    (field?.shadowRoot?.activeElement as HTMLElement | null)?.blur();
  });
}

async function openZone(page: Page): Promise<void> {
  await page.locator("side-sheet nav").getByRole("button", { name: "Zones" }).click();
  await page.getByRole("button", { name: /Station Street 1/ }).click();
  await page.getByRole("heading", { name: "Order of work" }).waitFor();
}
