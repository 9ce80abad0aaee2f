import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { openApp, SCREENS, serveApp } from "../../tests/browser/app-page.ts";
import { openView, sideViews } from "../../tests/browser/app-views.ts";
import { atRest } from "./at-rest.ts";

const FOLDER = fileURLToPath(new URL("./views/", import.meta.url));
const TOWN = new URL("../../sample-geojson/", import.meta.url);
/** Quality of a JPEG at which small type stays sharp and a picture of the map stays under 200 kB. */
const QUALITY = 72;
const THEMES = ["light", "dark"] as const;

/** Photographs every view of a served plan on every screen in both themes, into `views/VIEW-SCREEN-THEME.jpg`; with `only` those whose name begins so. */
export async function viewPictures(
  browser: Browser,
  address: string,
  subject: { readonly treeId: string; readonly zoneId: string },
  only: readonly string[],
): Promise<void> {
  mkdirSync(FOLDER, { recursive: true });
  const isWanted = (name: string) => only.length === 0 || only.some((one) => name.startsWith(one));
  for (const screen of SCREENS)
    for (const theme of THEMES) {
      const take = async (page: Page, view: string) => {
        const name = `${view}-${screen.name}-${theme}`;
        if (isWanted(name))
          writeFileSync(`${FOLDER}${name}.jpg`, await page.screenshot({ type: "jpeg", quality: QUALITY }));
      };
      const { page, close } = await openApp(browser, address, screen, { theme });
      await page.waitForSelector("map-view[drawn]", { timeout: 120_000 });
      for (const [view, query] of sideViews(subject.treeId, subject.zoneId)) {
        if (!isWanted(`${view}-${screen.name}-${theme}`)) continue;
        await openView(page, query);
        await atRest(page);
        await take(page, view);
      }
      await overThePage(page, screen.name, take);
      await close();
      process.stdout.write(`views on a ${screen.name}, ${theme}\n`);
    }
  await beforeAPlan(browser, isWanted);
}

/** What lies over the page: the years ahead, another date, the sheet to print. */
async function overThePage(page: Page, screen: string, take: (page: Page, view: string) => Promise<void>) {
  await openView(page, "");
  if (screen !== "phone") {
    await page.getByRole("button", { name: "Ten years" }).click();
    await page.locator("years-dialog dialog[open]").waitFor();
    await take(page, "years");
    await page.keyboard.press("Escape");
  }
  await page.getByRole("button", { name: "Look ahead" }).click({ timeout: 120_000 });
  const bob = page.getByRole("slider", { name: "Date shown on map and list" });
  await bob.focus();
  for (let year = 0; year < 3; year += 1) await page.keyboard.press("PageUp");
  await atRest(page);
  await take(page, "ahead");
  await bob.focus();
  await page.keyboard.press("Escape");
  if (screen !== "desk") return;
  await page.getByRole("button", { name: "Print map" }).click();
  await page.locator("print-view").getByText("Print at 100 %").waitFor({ timeout: 120_000 });
  await take(page, "print");
}

/** The page without a plan, and with files dropped on it. */
async function beforeAPlan(browser: Browser, isWanted: (name: string) => boolean) {
  const { server, address } = await serveApp();
  for (const screen of SCREENS)
    for (const theme of THEMES) {
      const names = ["start", "intake"].map((view) => `${view}-${screen.name}-${theme}`);
      if (!names.some(isWanted)) continue;
      const { page, close } = await openApp(browser, address, screen, { theme });
      await page.getByRole("button", { name: "Choose files" }).waitFor();
      const [start, intake] = names;
      writeFileSync(`${FOLDER}${start}.jpg`, await page.screenshot({ type: "jpeg", quality: QUALITY }));
      await page.locator("input[type=file]").setInputFiles(
        ["trees", "roads", "buildings", "signs"].map((layer) => ({
          name: `${layer}.geojson`,
          mimeType: "application/geo+json",
          buffer: readFileSync(new URL(`${layer}.geojson`, TOWN)),
        })),
      );
      await page.locator("intake-sheet [role=status]").getByText(/read/).waitFor({ timeout: 120_000 });
      await page.getByLabel("As of").fill("2026-11-02");
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      writeFileSync(`${FOLDER}${intake}.jpg`, await page.screenshot({ type: "jpeg", quality: QUALITY }));
      await close();
    }
  server.close();
}
