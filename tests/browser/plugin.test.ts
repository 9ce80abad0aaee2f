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

describe.each(["5", "6"])("on MapLibre %s", (major) => {
  beforeEach(async () => {
    ({ page, closeQuietly } = await openHarness(browser, served.address, major));
  });
  afterEach(async () => closeQuietly());

  test("what is added is taken away again, and can be added again", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      let subscribed = 0;
      const on = map.on.bind(map) as (...of: unknown[]) => { unsubscribe(): void };
      (map as unknown as { on: unknown }).on = (...of: unknown[]) => {
        const subscription = on(...of);
        subscribed += 1;
        return {
          unsubscribe: () => {
            subscribed -= 1;
            subscription.unsubscribe();
          },
        };
      };
      const before = window.taken(map);
      const control = new plugin.BoughlineControl({ plan: smallOpenedPlan() });
      const rounds = [];
      for (let round = 0; round < 2; round += 1) {
        map.addControl(control);
        control.select("T003");
        control.selectZone("Z2");
        await map.once("idle");
        const during = { ...window.taken(map), subscribed };
        map.removeControl(control);
        await map.once("idle");
        rounds.push({ during, after: { ...window.taken(map), subscribed } });
      }
      return { before: { ...before, subscribed: 0 }, rounds };
    });
    expect(seen.rounds[0]!.during.layers.length).toBeGreaterThan(25);
    expect(seen.rounds[0]!.during.images.length).toBeGreaterThan(80);
    expect(seen.rounds[1]!.during).toEqual(seen.rounds[0]!.during);
    for (const { after } of seen.rounds) expect(after).toEqual(seen.before);
  });

  test("the layers, what is selected and the filter survive a change of the host's style", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const handle = plugin.addBoughlineLayers(map, smallOpenedPlan());
      handle.addEventListener("error", (event) => console.error(event.detail.error.message));
      handle.select("T003");
      handle.setFilter({ urgencies: ["now"] });
      const states = [];
      for (const diff of [true, false]) {
        const background = {
          id: `ground-${diff}`,
          type: "background" as const,
          paint: { "background-color": "#dddddd" },
        };
        map.setStyle({ version: 8, sources: {}, layers: [background] }, { diff });
        await map.once("idle");
        states.push({
          layers: map.getStyle().layers.length,
          tree: map.getFeatureState({ source: "boughline-trees", id: "T003" }),
          marks: map
            .queryRenderedFeatures({ layers: ["boughline-marks"] })
            .map((feature) => feature.properties.urgency as string),
        });
      }
      return states;
    });
    for (const state of seen) {
      expect(state.layers).toBeGreaterThan(25);
      expect(state.tree).toEqual({ selected: true });
      expect(new Set(state.marks)).toEqual(new Set(["now"]));
    }
  });

  test("a click selects a tree, shows its card and Escape leaves it", async () => {
    const at = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const opened = smallOpenedPlan();
      const control = new plugin.BoughlineControl({ plan: opened });
      map.addControl(control);
      window.events = [];
      control.addEventListener("treeselect", (event) => window.events.push(event.detail.treeId));
      await map.once("idle");
      const tree = opened.plan.trees.find((one) => one.id === "T008")!;
      const { x, y } = map.project([tree.lonDeg, tree.latDeg]);
      return { x, y };
    });
    await page.mouse.click(at.x + 3, at.y + 2);
    const card = page.locator("boughline-tree-card");
    await card.getByRole("heading", { level: 2 }).waitFor();
    expect(await card.getByRole("heading", { level: 2 }).textContent()).toBe("Swamp white oak T008");
    expect(await card.locator("svg[role=img]").count()).toBeGreaterThan(0);
    expect(await page.locator("[aria-live]").first().textContent()).toBe("Selected tree T008");
    // A column that feeds no field stays off the card until somebody chooses it, and is text then.
    expect(await card.locator("dd").allTextContents()).not.toContain("<img src=x onerror=alert(1)>");
    await card.evaluate((element) => Object.assign(element, { shownColumns: ["NOTE"] }));
    const columns = card.locator("summary", { hasText: "own columns" });
    await columns.click();
    expect(await card.locator("dd").allTextContents()).toContain("<img src=x onerror=alert(1)>");
    await columns.press("Escape");
    await page.locator("boughline-legend").waitFor();
    expect(await page.evaluate(() => window.events)).toEqual(["T008", null]);
    await page.getByRole("button", { name: "Pruning plan" }).press("Escape");
    expect(await page.getByRole("button", { name: "Pruning plan" }).getAttribute("aria-expanded")).toBe("false");
  });

  test("a click on a zone shows it and its order of work", async () => {
    const at = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const opened = smallOpenedPlan();
      map.addControl(new plugin.BoughlineControl({ plan: opened }));
      await map.once("idle");
      const ring = opened.plan.zones[2]!.area.coordinates[0]![0]!;
      const { x, y } = map.project([(ring[0]![0]! + ring[2]![0]!) / 2, (ring[0]![1]! + ring[2]![1]!) / 2]);
      return { x, y };
    });
    await page.mouse.click(at.x, at.y);
    const card = page.locator("boughline-zone-card");
    expect(await card.getByRole("heading", { level: 2 }).textContent()).toBe("Mill Lane 3");
    await card.getByRole("button").first().click();
    await page.locator("boughline-tree-card").waitFor();
  });

  test("theme, units and parts change in place", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const handle = plugin.addBoughlineLayers(map, smallOpenedPlan());
      map.setZoom(20);
      await map.once("idle");
      const look = () => ({
        ground: map.getPaintProperty("boughline-ground", "background-color"),
        texts: map.querySourceFeatures("boughline-figures").map((feature) => feature.properties.text as string),
        image: [...map.getImage("boughline-mark-lift-now-confirmed").data.data.slice(0, 9000)].join(),
      });
      const before = look();
      handle.setTheme("dark");
      handle.setUnits("us");
      await map.once("idle");
      const after = look();
      handle.setParts(["marks"]);
      const shown = ["boughline-marks", "boughline-zones"].map((id) => map.getLayoutProperty(id, "visibility"));
      return { before, after, shown };
    });
    expect(seen.shown).toEqual(["visible", "none"]);
    expect(seen.before.ground).toBe("#f4f2ec");
    expect(seen.after.ground).toBe("#14181b");
    expect(seen.after.image).not.toBe(seen.before.image);
    expect(seen.before.texts).toContain("lift 1.2 m");
    expect(seen.after.texts).toContain("lift 3 ft 11 in");
  });

  test("crowns are there when the reader comes close, also to a map that began far out", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      map.setZoom(13);
      const handle = plugin.addBoughlineLayers(map, smallOpenedPlan());
      handle.addEventListener("error", (event) => console.error(event.detail.error.message));
      handle.select("T003");
      const drawn = (layer: string) => map.queryRenderedFeatures({ layers: [layer] }).length;
      await map.once("idle");
      const far = { dots: drawn("boughline-far-marks"), crowns: drawn("boughline-crowns") };
      map.setZoom(19);
      await map.once("idle");
      const state = map.getFeatureState({ source: "boughline-crowns", id: "T003" });
      return { far, near: { dots: drawn("boughline-far-marks"), crowns: drawn("boughline-crowns") }, state };
    });
    expect(seen.far.dots).toBeGreaterThan(0);
    expect(seen.far.crowns).toBe(0);
    expect(seen.near.dots).toBe(0);
    expect(seen.near.crowns).toBeGreaterThan(0);
    expect(seen.state).toEqual({ selected: true });
  });

  test("on a host's own map it stays below the labels and brings no ground of its own", async () => {
    const order = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const empty = { type: "FeatureCollection" as const, features: [] };
      const map = await window.openMap("map", {
        version: 8,
        sources: { host: { type: "geojson", data: empty } },
        layers: [
          { id: "host-roads", type: "line", source: "host" },
          { id: "host-labels", type: "symbol", source: "host" },
        ],
      });
      plugin.addBoughlineLayers(map, smallOpenedPlan());
      await map.once("idle");
      return map.getStyle().layers.map((layer) => layer.id);
    });
    expect(order[0]).toBe("host-roads");
    expect(order.at(-1)).toBe("host-labels");
    expect(order).not.toContain("boughline-ground");
    expect(order).toContain("boughline-conductors");
  });

  test("two maps each keep their own plan; one may go without the other noticing, loaded or not", async () => {
    const seen = await page.evaluate(async () => {
      const { maplibre, plugin, smallOpenedPlan } = window.harness;
      const make = (id: string) => {
        const element = document.createElement("div");
        element.id = id;
        element.style.height = "300px";
        document.body.append(element);
      };
      make("first");
      make("second");
      const [first, second] = await Promise.all([window.openMap("first"), window.openMap("second")]);
      const one = new plugin.BoughlineControl({ plan: smallOpenedPlan() });
      const two = new plugin.BoughlineControl({ plan: smallOpenedPlan() });
      first.addControl(one);
      second.addControl(two);
      one.select("T001");
      await Promise.all([first.once("idle"), second.once("idle")]);
      first.remove();
      const early = new maplibre.Map({ container: "map", style: { version: 8, sources: {}, layers: [] } });
      const gone = new plugin.BoughlineControl({ plan: smallOpenedPlan() });
      early.addControl(gone);
      early.removeControl(gone);
      await early.once("load");
      return {
        two: two.selectedTreeId,
        layers: second.getStyle().layers.length,
        early: early.getStyle().layers.length,
      };
    });
    expect(seen.two).toBeNull();
    expect(seen.layers).toBeGreaterThan(25);
    expect(seen.early).toBe(0);
  });

  test.each(["light", "dark"] as const)("the %s control has no accessibility faults", async (theme) => {
    await page.evaluate(async (shown) => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const control = new plugin.BoughlineControl({ plan: smallOpenedPlan(), theme: shown });
      window.control = control;
      map.addControl(control);
      await map.once("idle");
    }, theme);
    await page.addScriptTag({ content: AXE });
    for (const show of ["legend", "tree", "zone"]) {
      const found = await page.evaluate(async (what) => {
        if (what === "tree") window.control.select("T002");
        if (what === "zone") {
          window.control.select(null);
          window.control.selectZone("Z1");
        }
        await new Promise((resolve) => setTimeout(resolve, 50));
        const result = await window.axe.run(".boughline-control");
        return result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" ")}`);
      }, show);
      expect(found).toEqual([]);
    }
  });
});
