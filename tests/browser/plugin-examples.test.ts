import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { serveExamples } from "../../docs/examples/serve-examples.ts";
import { usCommon, usCommonSource } from "../../src/core/standard/parse-standard.ts";
import { planFiles } from "../../src/formats/plan/plan-files.ts";
import { buildPlugin } from "../../src/map/make/build-plugin.ts";
import { smallOpenedPlan } from "../map/small-opened-plan.ts";
import { launchChromium } from "./chromium.ts";

const FOLDER = mkdtempSync(join(tmpdir(), "boughline-examples-"));
const SIZES = [
  { width: 1440, height: 900 },
  { width: 390, height: 844 },
] as const;

let browser: Browser;
let server: Server;
let address: string;

beforeAll(async () => {
  const { plan, trees } = smallOpenedPlan();
  const revision = join(FOLDER, "revision");
  await mkdir(revision);
  const files = planFiles(plan, {}, usCommon(), usCommonSource);
  files.set("trees.geojson", new TextEncoder().encode(JSON.stringify(trees)));
  for (const [name, bytes] of files) writeFileSync(join(revision, name), bytes);
  await buildPlugin(join(FOLDER, "plugin"));
  ({ server, address } = await serveExamples({ plan: revision, plugin: join(FOLDER, "plugin") }, 0));
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(FOLDER, { recursive: true });
});

/** Opens an example; what it complains about, misses or asks of strangers fails when it is closed. */
async function open(name: string, size: (typeof SIZES)[number] = SIZES[0]) {
  const page = await browser.newPage({ viewport: size });
  const faults: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("response", (response) => {
    if (response.status() >= 400) faults.push(`${response.status()} ${response.url()}`);
  });
  page.on("request", (request) => {
    const { protocol, origin } = new URL(request.url());
    if (protocol.startsWith("http") && origin !== new URL(address).origin) faults.push(`asked for ${request.url()}`);
  });
  await page.goto(`${address}${name}.html`);
  await page.waitForFunction(() => document.querySelector("canvas.maplibregl-canvas") !== null);
  return {
    page,
    close: async () => {
      await page.close();
      expect(faults).toEqual([]);
    },
  };
}

/** The map's part of the window as a picture. */
async function shot(page: Page): Promise<Buffer> {
  const clip = (await page.locator("#map").boundingBox()) ?? { x: 0, y: 0, width: 1, height: 1 };
  return page.screenshot({ clip, timeout: 120_000 });
}

/** Takes pictures until one meets what is asked; the clock is asked only to give up. */
async function shotWhere(page: Page, meets: (now: Buffer, before: Buffer) => Promise<boolean>): Promise<Buffer> {
  let before = await shot(page);
  for (let tries = 0; tries < 60; tries += 1) {
    await page.waitForTimeout(500);
    const now = await shot(page);
    if (await meets(now, before)) return now;
    before = now;
  }
  throw new Error("Expected the map to come to show what is asked, got something else for as long as was waited");
}

/** The map with marks on it, once two pictures in a row are the same. */
const settled = (page: Page): Promise<Buffer> =>
  shotWhere(page, async (now, before) => now.equals(before) && (await tonesOn(page, now)) > 0);

/** Number of pixels of a screenshot in the tone of the light, dark or print theme's most urgent marks. */
async function tonesOn(page: Page, picture: Buffer): Promise<number> {
  return page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d")!;
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
    const tones = [0x5a0c46, 0xffe08a];
    let count = 0;
    for (let at = 0; at < data.length; at += 4)
      if (tones.includes((data[at]! << 16) | (data[at + 1]! << 8) | data[at + 2]!)) count += 1;
    return count;
  }, picture.toString("base64"));
}

test("every example page is listed, and every listed one is there", async () => {
  const pages = readdirSync(new URL("../../docs/examples/", import.meta.url))
    .filter((name) => name.endsWith(".html") && name !== "index.html")
    .sort();
  const page = await browser.newPage();
  await page.goto(address);
  const listed = await page.locator("dt a").evaluateAll((links) => links.map((link) => link.getAttribute("href")));
  await page.close();
  expect(listed.sort()).toEqual(pages);
});

test.each(SIZES)("on a bare map: marks, legend and card, $width wide", async (size) => {
  const { page, close } = await open("bare-map", size);
  await settled(page);
  const fold = page.getByRole("button", { name: "Pruning plan" });
  if ((await fold.getAttribute("aria-expanded")) === "false") await fold.click();
  await page.locator("boughline-legend").getByText("next window").waitFor();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
  await close();
});

test("on a host's map: taken off leaves the host's picture, put on again the same as before", async () => {
  const { page, close } = await open("host-map");
  const first = await settled(page);
  const toggle = page.getByRole("button", { name: "Pruning plan" }).and(page.locator("#toggle"));
  await toggle.click();
  expect(await page.locator(".boughline-control").count()).toBe(0);
  await shotWhere(page, async (now) => (await tonesOn(page, now)) === 0);
  await toggle.click();
  const before = await tonesOn(page, first);
  await shotWhere(page, async (now) => (await tonesOn(page, now)) === before);
  await close();
});

test("layers only: the page's filter and theme reach the map", async () => {
  const { page, close } = await open("layers-only");
  const all = await tonesOn(page, await settled(page));
  expect(await page.locator(".boughline-control").count()).toBe(0);
  await page.getByLabel("Theme").selectOption("dark");
  const dark = await settled(page);
  expect(await tonesOn(page, dark)).toBeGreaterThan(0);
  await page.getByLabel("Theme").selectOption("light");
  await page.getByLabel("Urgency").selectOption("watch");
  // Of the marks in the most urgent tone none is left.
  await shotWhere(page, async (now) => (await tonesOn(page, now)) < all / 4);
  await close();
});

test.each(SIZES)("style fragment only: marks come from the sprite, in every theme, $width wide", async (size) => {
  const { page, close } = await open("style-only", size);
  const requests: string[] = [];
  page.on("request", (request) => requests.push(new URL(request.url()).pathname));
  await settled(page);
  for (const theme of ["dark", "print"]) {
    await page.getByLabel("Theme").selectOption(theme);
    await settled(page);
    expect(requests).toContain(`/plugin/styles/sprite-${theme}.png`);
  }
  expect(requests.filter((path) => path.endsWith("boughline.js"))).toEqual([]);
  await close();
});
