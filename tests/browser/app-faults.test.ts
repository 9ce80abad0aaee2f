import type { Server } from "node:http";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { smallPlanFiles } from "../app/small-plan.ts";
import { drawn, drop, openApp, openList, SCREENS, serveApp } from "./app-page.ts";
import { openView, sideViews } from "./app-views.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 30;
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

test("without WebGL the page says so, and list, cards and zones work", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, DESK);
  await page.evaluate(() => {
    const { getContext } = HTMLCanvasElement.prototype;
    Object.assign(HTMLCanvasElement.prototype, {
      getContext(this: HTMLCanvasElement, kind: string, ...more: unknown[]) {
        return /webgl/.test(kind) ? null : Reflect.apply(getContext, this, [kind, ...more]);
      },
    });
  });
  await drop(page, [...smallPlanFiles(COUNT)]);
  await page.getByText("This browser cannot draw the map").waitFor();
  await page.locator("tree-list [role=option]").first().click();
  await page.locator("boughline-tree-card").getByRole("heading", { level: 2 }).waitFor();
  await openList(page, "Zones");
  await page.locator("zone-list li button").first().click();
  await page.getByRole("heading", { name: "Order of work" }).waitFor();
  expectQuiet();
  await close();
});

test("an outline being drawn outlasts the loss of the graphics context, again and again", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, PHONE);
  await drop(page, [...smallPlanFiles(COUNT)]);
  await drawn(page);
  await openList(page, "Zones");
  await page.locator("zone-list").getByRole("button", { name: "Draw a zone" }).click();
  const bar = page.locator("draw-bar");
  await bar.getByText(/Click the corners/).waitFor();
  const box = (await page.locator("map-view canvas").first().boundingBox())!;
  for (const [across, down] of [
    [0.1, 0.2],
    [0.9, 0.2],
    [0.9, 0.75],
    [0.1, 0.75],
    [0.1, 0.75],
  ] as const) {
    await page.mouse.move(box.x + box.width * across, box.y + box.height * down, { steps: 4 });
    await page.mouse.down();
    await page.mouse.up();
    // Two clicks in quick succession would be one double click.
    await page.waitForTimeout(400);
  }
  const corners = () =>
    page.evaluate(() =>
      JSON.stringify(
        (document.querySelector("boughline-app") as unknown as { zones: { drawing: unknown } }).zones.drawing,
      ),
    );
  await bar.getByText(/zone/i).first().waitFor();
  const before = await corners();
  for (let time = 0; time < 5; time += 1) await loseContext(page);
  expect(await corners()).toBe(before);
  await bar.getByRole("button", { name: "Cancel" }).click();
  expectQuiet();
  await close();
});

test("a worker that dies while a plan is made leaves the page at hand, and the next try makes it", {
  timeout: 300_000,
}, async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, DESK);
  await page.evaluate(() => {
    const workers: Worker[] = [];
    const Real = window.Worker;
    Object.assign(window, {
      workers,
      Worker: class extends Real {
        constructor(...args: ConstructorParameters<typeof Worker>) {
          super(...args);
          workers.push(this);
        }
      },
    });
  });
  await page.getByRole("button", { name: "Open the sample town" }).click();
  await page.getByRole("button", { name: "Cancel" }).waitFor();
  await page.waitForFunction(() => (window as unknown as { workers: Worker[] }).workers.length > 0);
  await page.evaluate(() => {
    for (const worker of (window as unknown as { workers: Worker[] }).workers) worker.terminate();
  });
  await page.getByRole("button", { name: "Cancel" }).click();
  await page.getByRole("button", { name: "Open the sample town" }).click();
  await drawn(page);
  expect(await page.locator("tree-list [role=option]").count()).toBeGreaterThan(0);
  expectQuiet();
  await close();
});

test("hostile texts are data in every view", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, DESK);
  const hostile = '"><img src=x onerror="window.__pwned=1"><svg onload=window.__pwned=1>';
  const features = [0, 1, 2].map((at) => ({
    type: "Feature",
    properties: {
      id: `${hostile}${at}`,
      species: hostile,
      street: hostile,
      condition: hostile,
      notes: hostile,
      dbh: at === 0 ? -3 : 30,
      height: 9,
      crown_base: 1,
      crown_radius: 4,
    },
    geometry: { type: "Point", coordinates: [-139.5 + at * 0.0001, 44.25] },
  }));
  const road = {
    type: "Feature",
    properties: { id: hostile, name: hostile, class: "residential", lanes: 2 },
    geometry: {
      type: "LineString",
      coordinates: [
        [-139.51, 44.25001],
        [-139.49, 44.25001],
      ],
    },
  };
  const collection = (list: readonly object[]) => JSON.stringify({ type: "FeatureCollection", features: list });
  await drop(page, [
    [`trees ${hostile.replaceAll("/", "")}.geojson`, collection(features)],
    ["roads.geojson", collection([road])],
  ]);
  await page
    .getByLabel(/^Layer of trees/)
    .first()
    .selectOption("trees");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await drawn(page);
  const zoneId = await page.evaluate(
    () =>
      (
        document.querySelector("boughline-app") as unknown as {
          hand: { opened: { plan: { zones: { zoneId: string }[] } } };
        }
      ).hand.opened.plan.zones[0]?.zoneId ?? "none",
  );
  for (const [, query] of sideViews(encodeURIComponent(`${hostile}1`), zoneId)) {
    if (zoneId !== "none" || !query.includes("none")) await openView(page, query);
  }
  await page.getByRole("button", { name: "Print map" }).click();
  await page.locator("print-view").getByText("Print at 100 %").waitFor({ timeout: 120_000 });
  expect(await page.evaluate(() => "__pwned" in window)).toBe(false);
  expectQuiet();
  await close();
});

/** Takes the map's graphics context away and gives it back, and waits until the map is drawn again. */
async function loseContext(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const { map } = document.querySelector("map-view") as unknown as {
      map: { getCanvas(): HTMLCanvasElement; once(event: string, then: () => void): void };
    };
    const lose = map.getCanvas().getContext("webgl2")!.getExtension("WEBGL_lose_context")!;
    const isRestored = new Promise<void>((done) => map.once("webglcontextrestored", done));
    const isLost = new Promise<void>((done) => map.once("webglcontextlost", done));
    lose.loseContext();
    await isLost;
    // A context can be given back only once everybody has heard of its loss.
    setTimeout(() => lose.restoreContext(), 50);
    await isRestored;
    await new Promise<void>((done) => map.once("idle", done));
  });
}
