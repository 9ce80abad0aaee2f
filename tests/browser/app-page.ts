import { existsSync } from "node:fs";
import type { Server } from "node:http";
import { fileURLToPath } from "node:url";
import axe from "axe-core";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";
import { contentPolicy } from "../../src/cli/server/content-policy.ts";
import { type Mount, serveFolders } from "../../src/cli/server/static-server.ts";

const APP = fileURLToPath(new URL("../../dist/app", import.meta.url));

/** Screens the page is tried on, in CSS pixels. */
export const SCREENS = [
  { name: "desk", width: 1440, height: 900 },
  { name: "tablet", width: 820, height: 1180 },
  { name: "phone", width: 390, height: 844 },
] as const;

/** The built app on a loopback address, with further folders beside it. Throws Error when it was not built. */
export async function serveApp(...mounts: Mount[]): Promise<{ server: Server; address: string }> {
  if (!existsSync(`${APP}/index.html`)) throw new Error('The app is not built: run "npm run build" first.');
  return serveFolders([{ path: "/", folder: APP }, ...mounts], 0, contentPolicy([]));
}

/** A page that keeps account of what it asks for and complains about. */
export interface WatchedPage {
  readonly page: Page;
  /** Fails when the page asked any other origin for anything, logged an error or threw. */
  expectQuiet(): void;
  close(): Promise<void>;
}

/** Opens the app on a screen of the given size. Besides its own origin it may ask those that are allowed. */
export async function openApp(
  browser: Browser,
  address: string,
  screen: { readonly width: number; readonly height: number },
  { theme = "light", allowed = [] }: { theme?: "light" | "dark"; allowed?: readonly string[] } = {},
): Promise<WatchedPage> {
  const context = await browser.newContext({
    viewport: screen,
    colorScheme: theme,
    reducedMotion: "reduce",
    acceptDownloads: true,
    // Keeping the page for later would only cost each test the time to fetch all of it; one test of its own lets it.
    serviceWorkers: "block",
    hasTouch: screen.width < 500,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  const strangers: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(`${message.text()} (${message.location().url})`);
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => {
    const { origin, protocol } = new URL(request.url());
    const isKnown = origin === new URL(address).origin || allowed.includes(origin);
    if (protocol !== "data:" && protocol !== "blob:" && !isKnown) {
      strangers.push(request.url());
    }
  });
  await page.goto(address);
  return {
    page,
    expectQuiet() {
      expect(strangers).toEqual([]);
      expect(complaints).toEqual([]);
    },
    close: () => context.close(),
  };
}

/** Waits until the map has drawn the plan. */
export async function drawn(page: Page): Promise<void> {
  await page.waitForSelector("map-view[drawn]", { timeout: 90_000 });
}

/** The faults axe finds, as `rule: place` lines; empty when there are none. */
export async function accessFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof axe }).axe.run(document, { resultTypes: ["violations"] }),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`),
  );
}

/** Opens a list of the side sheet by its name, from wherever the sheet stands. */
export async function openList(page: Page, name: "Trees" | "Zones" | "Findings" | "Legend"): Promise<void> {
  const back = page.locator("side-sheet").getByRole("button", { name: /Back to/ });
  while ((await back.count()) > 0) await back.click();
  await page.locator("side-sheet nav").getByRole("button", { name }).click();
}

/** Drops files on the middle of the page, as a file manager does. */
export async function drop(
  page: Page,
  files: readonly (readonly [name: string, content: string | Uint8Array])[],
): Promise<void> {
  const given = files.map(([name, content]) => [name, Buffer.from(content).toString("base64")] as const);
  await page.evaluate((dropped) => {
    const transfer = new DataTransfer();
    for (const [name, base64] of dropped) {
      transfer.items.add(new File([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))], name));
    }
    for (const type of ["dragenter", "dragover", "drop"]) {
      document.body.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }));
    }
  }, given);
}
