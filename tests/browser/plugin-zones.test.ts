import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { openHarness } from "./plugin-page.ts";
import { serveHarness } from "./serve-harness.ts";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let served: Awaited<ReturnType<typeof serveHarness>>;
let browser: Browser;
let page: Page;
let closeQuietly: () => Promise<void>;

beforeAll(async () => {
  served = await serveHarness();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

/** A map with a plan of thirty trees in two rows and the zone tools beside it, which keeps what the tools tell. */
const openTools = () =>
  page.evaluate(async () => {
    const { plugin, zoning, smallPlanFiles } = window.harness;
    const map = await window.openMap("map");
    window.shownMap = map;
    const files = [...smallPlanFiles(30)].map(([name, bytes]) => new File([bytes as BlobPart], name));
    const control = new plugin.BoughlineControl({
      plan: files,
      fit: true,
      card: false,
      zoneTools: zoning.addZoneTools,
    });
    window.control = control;
    window.events = [];
    const loaded = new Promise((resolve, reject) => {
      control.addEventListener("planload", resolve, { once: true });
      control.addEventListener("error", ({ detail }) => reject(detail.error));
    });
    map.addControl(control);
    const tools = control.zoneTools!;
    tools.addEventListener("zoneedit", ({ detail }) =>
      window.events.push([detail.label, detail.features.features.length]),
    );
    tools.addEventListener("zonerefuse", ({ detail }) => window.events.push(["refused", detail.findings[0]!.code]));
    tools.addEventListener("zonedraw", ({ detail }) => window.events.push(["draw", detail.purpose?.for ?? null]));
    await loaded;
    // A map that stands already tells no more of it.
    await Promise.race([map.once("idle"), new Promise((done) => setTimeout(done, 3000))]);
  });

const events = () => page.evaluate(() => window.events);

describe.each(["5", "6"])("zone tools on MapLibre %s", (major) => {
  beforeEach(async () => {
    ({ page, closeQuietly } = await openHarness(browser, served.address, major));
    await openTools();
  });
  afterEach(async () => closeQuietly());

  test("a zone is renamed, set, reordered and put back by keyboard alone", async () => {
    const panel = page.locator("boughline-zones");
    await panel.locator("boughline-zone-list li button").first().press("Enter");
    await panel.getByRole("button", { name: "Rename" }).press("Enter");
    await page.keyboard.type("Mill side");
    await page.keyboard.press("Enter");
    await panel.getByRole("heading", { name: "Mill side" }).waitFor();
    await panel.getByLabel("State").selectOption("issued");
    await panel.locator("boughline-zone-card").getByText("Issued").first().waitFor();
    await panel.getByRole("button", { name: "Change order" }).press("Enter");
    const lines = panel.locator("boughline-order-list li");
    const second = await lines.nth(1).locator(".tree").textContent();
    const up = lines.nth(1).getByRole("button", { name: /up$/ });
    // A crew has the packet of an issued zone.
    await up.press("Enter");
    await panel.getByRole("heading", { name: "Not done" }).waitFor();
    await panel.locator(".fold").press("Control+z");
    await expect.poll(() => panel.getByLabel("State").inputValue()).toBe("draft");
    await up.press("Enter");
    await expect.poll(() => lines.first().locator(".tree").textContent()).toBe(second);
    const hours = () => panel.locator("boughline-zone-card dl").first().textContent();
    const before = await hours();
    await lines
      .first()
      .getByRole("button", { name: /out of the zone$/ })
      .press("Enter");
    await expect.poll(hours).not.toBe(before);
    await panel.getByLabel("Planned on").focus();
    await panel.locator(".fold").press("Control+z");
    await expect.poll(hours).toBe(before);
    expect((await events()).map((event) => (event as string[])[0])).toEqual([
      "Rename the zone",
      "Change the state",
      "refused",
      "Undo: Change the state",
      "Move a tree in the order",
      "Take trees out",
      "Undo: Take trees out",
    ]);
  });

  test("what is refused says why and offers the way out, which works", async () => {
    const panel = page.locator("boughline-zones");
    const isDone = await page.evaluate(() => {
      const { zoneTools, plan } = window.control;
      return zoneTools!.edit({ kind: "make", trees: { treeIds: [plan!.plan.zones[0]!.treeIds[0]!] } });
    });
    expect(isDone).toBe(false);
    await panel.getByRole("heading", { name: "Not done" }).waitFor();
    expect(await events()).toContainEqual(["refused", "tree-in-other-zone"]);
    await panel.locator("boughline-zone-notes .mends button").first().click();
    await expect.poll(async () => (await events()).at(-1)).toEqual(["Make a zone", 2]);
    const drawn = await page.evaluate(() => window.control.plan!.zones.features.length);
    expect(drawn).toBe(2);
  });

  test("a line drawn on the map shows what it would split, and splits; a change of style gives the drawing up", async () => {
    const panel = page.locator("boughline-zones");
    await panel.locator("boughline-zone-list li button").first().click();
    const startLine = () => panel.getByLabel("Split", { exact: true }).selectOption("line");
    await startLine();
    await panel.getByText(/Click two or more points/).waitFor();
    const ends = await page.evaluate(() => {
      const { plan } = window.control;
      const map = window.shownMap;
      const zone = plan!.plan.zones[0]!;
      const trees = plan!.plan.trees.filter(({ id }) => zone.treeIds.includes(id));
      const lon = trees.map(({ lonDeg }) => lonDeg).sort((one, other) => one - other);
      const lat = trees.map(({ latDeg }) => latDeg);
      const middle = (lon[0]! + lon.at(-1)!) / 2;
      return [Math.min(...lat) - 0.0001, Math.max(...lat) + 0.0001].map((at) => map.project([middle, at]));
    });
    await page.waitForFunction(() =>
      document.querySelector(".maplibregl-canvas")?.getAttribute("style")?.includes("crosshair"),
    );
    for (const { x, y } of [ends[0]!, ends[1]!, ends[1]!]) {
      await page.mouse.move(x, y, { steps: 4 });
      await page.mouse.down();
      await page.mouse.up();
      // Two clicks in quick succession would be one double click.
      await page.waitForTimeout(400);
    }
    await panel.getByRole("button", { name: "Split here" }).click();
    await expect.poll(async () => (await events()).at(-1)).toEqual(["draw", null]);
    expect(await events()).toContainEqual(["Split the zone", 2]);
    await startLine();
    await expect.poll(async () => (await events()).at(-1)).toEqual(["draw", "split"]);
    await page.evaluate(async () => {
      const map = window.shownMap;
      map.setStyle({ version: 8, sources: {}, layers: [] }, { diff: false });
      // A map that stands already tells no more of it.
      await Promise.race([map.once("idle"), new Promise((done) => setTimeout(done, 3000))]);
    });
    await expect.poll(async () => (await events()).at(-1)).toEqual(["draw", null]);
  });

  test("tools that go leave nothing behind, also while something is drawn, and can come again", async () => {
    const seen = await page.evaluate(async () => {
      const { zoning } = window.harness;
      const map = window.shownMap;
      window.control.zoneTools!.remove();
      // A map that stands already tells no more of it.
      await Promise.race([map.once("idle"), new Promise((done) => setTimeout(done, 3000))]);
      const sources = () => Object.keys(map.getStyle().sources);
      const taken = () => ({ ...window.taken(map), zoomsByDoubleClick: map.doubleClickZoom.isEnabled() });
      const rounds = [];
      for (const zoomsByDoubleClick of [true, false]) {
        if (zoomsByDoubleClick) map.doubleClickZoom.enable();
        else map.doubleClickZoom.disable();
        const before = taken();
        const tools = zoning.addZoneTools(map, window.control);
        await tools.draw({ for: "make" });
        // The drawing library is loaded meanwhile.
        for (let tries = 0; tries < 200 && sources().length === before.sources.length; tries += 1)
          await new Promise((resolve) => setTimeout(resolve, 50));
        const during = sources();
        tools.remove();
        await Promise.race([map.once("idle"), new Promise((done) => setTimeout(done, 3000))]);
        rounds.push({ before, during, after: taken() });
      }
      return rounds;
    });
    for (const { before, during, after } of seen) {
      expect(during.length).toBeGreaterThan(before.sources.length);
      expect(during.filter((name) => !name.startsWith("boughline-"))).toEqual([]);
      expect(after).toEqual(before);
    }
  });

  test("a plan with zone tools that goes while a zone is drawn leaves the bare map behind, each time", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, zoning, smallPlanFiles } = window.harness;
      const map = window.shownMap;
      map.removeControl(window.control);
      const bare = window.taken(map);
      const rounds = [];
      for (let round = 0; round < 2; round += 1) {
        const files = [...smallPlanFiles(30)].map(([name, bytes]) => new File([bytes as BlobPart], name));
        const control = new plugin.BoughlineControl({ plan: files, zoneTools: zoning.addZoneTools });
        const loaded = new Promise((resolve) => control.addEventListener("planload", resolve, { once: true }));
        map.addControl(control);
        await loaded;
        await control.zoneTools!.draw({ for: "make" });
        const during = map.getContainer().querySelectorAll("boughline-zones").length;
        map.removeControl(control);
        rounds.push({ during, after: window.taken(map) });
      }
      return { bare, rounds };
    });
    expect(seen.bare).toMatchObject({ layers: [], sources: [], images: [], cursor: "" });
    for (const { during, after } of seen.rounds) {
      expect(during).toBe(1);
      expect(after).toEqual(seen.bare);
    }
  });

  test("the tools have no accessibility faults", async () => {
    const panel = page.locator("boughline-zones");
    await page.addScriptTag({ content: AXE });
    const faults = () =>
      page.evaluate(async () => {
        const { violations } = await window.axe.run(".boughline-zones");
        return violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" ")}`);
      });
    expect(await faults()).toEqual([]);
    await panel.locator("boughline-zone-list li button").first().click();
    await panel.getByRole("button", { name: "Change order" }).click();
    await panel.locator("boughline-order-list li").first().waitFor();
    expect(await faults()).toEqual([]);
    await page.evaluate(() => window.control.setTheme("dark"));
    await page.waitForTimeout(100);
    expect(await faults()).toEqual([]);
  });
});
