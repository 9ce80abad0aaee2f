import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { expect } from "vitest";

/** Six days after the small plan's date, inside its zone's window. */
export const TODAY = new Date("2027-01-21T09:30:00");

/** A phone page opened from disk, without a network, that keeps account of what it asks for and complains about. */
export interface OpenedPhone {
  readonly page: Page;
  readonly address: string;
  /** Fails when the page asked for anything but itself, logged a complaint or threw. */
  expectQuiet(): void;
  close(): Promise<void>;
}

export interface PhoneOptions {
  readonly width?: number;
  readonly height?: number;
  readonly theme?: "light" | "dark";
  /** Runs before the page's own script. */
  readonly before?: () => void;
  readonly context?: BrowserContextOptions;
}

export async function openPhone(browser: Browser, html: string, options: PhoneOptions = {}): Promise<OpenedPhone> {
  const { width = 390, height = 844, theme = "light" } = options;
  const folder = mkdtempSync(join(tmpdir(), "boughline-phone-"));
  const file = join(folder, "phone.html");
  writeFileSync(file, html);
  const address = pathToFileURL(file).href;
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: theme,
    reducedMotion: "reduce",
    acceptDownloads: true,
    hasTouch: width < 500,
    offline: true,
    ...options.context,
  });
  const page = await context.newPage();
  await page.clock.setFixedTime(TODAY);
  if (options.before !== undefined) await page.addInitScript(options.before);
  const complaints: string[] = [];
  const asked: string[] = [];
  page.on("console", (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => {
    const url = request.url().replace(/#.*$/, "");
    if (url !== address && !/^(data|blob):/.test(url)) asked.push(url);
  });
  await page.goto(address);
  await page.getByRole("heading", { level: 1 }).waitFor();
  return {
    page,
    address,
    expectQuiet() {
      expect(asked).toEqual([]);
      expect(complaints).toEqual([]);
    },
    async close() {
      await context.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Goes to a part of the page by its address, as a link does. */
export async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to;
  }, hash);
  await page.waitForFunction((view) => document.body.dataset.view === view, hash.slice(1).split("/")[0]!);
}

/** What can be tapped and is smaller than 44 px on a side, links inside running text aside. */
export const smallTargets = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        "a, button, select, textarea, summary, label.button, .outcomes label, input",
      ),
    ]
      .filter((one) => !one.matches(".picker, [type=radio]") && one.getClientRects().length > 0)
      .flatMap((one) => {
        const { width, height } = one.getBoundingClientRect();
        return Math.min(width, height) < 44
          ? [`${one.tagName} ${one.textContent?.slice(0, 30)} ${width}x${height}`]
          : [];
      }),
  );
