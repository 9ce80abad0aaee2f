import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { joinBytes } from "../../src/formats/join-bytes.ts";
import { memoryFile } from "../../src/formats/tiles/byte-file.ts";
import { planTiles } from "../../src/map/tiles/plan-tiles.ts";
import { filesInMemory } from "../map/files-in-memory.ts";
import { smallOpenedPlan } from "../map/small-opened-plan.ts";
import { launchChromium } from "./chromium.ts";
import { openHarness } from "./plugin-page.ts";
import { serveHarness } from "./serve-harness.ts";

const file = filesInMemory(smallOpenedPlan().plan);
const tiles = memoryFile(joinBytes(planTiles(file)));

let served: Awaited<ReturnType<typeof serveHarness>>;
let browser: Browser;
let page: Page;
let closeQuietly: () => Promise<void>;
/** What was asked for, as file and range. */
let asked: string[];

beforeAll(async () => {
  served = await serveHarness();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

describe.each(["5", "6"])("a plan by its tiles on MapLibre %s", (major) => {
  beforeEach(async () => {
    asked = [];
    ({ page, closeQuietly } = await openHarness(browser, served.address, major));
    await page.route("**/tiled-plan/*", async (route) => {
      const name = new URL(route.request().url()).pathname.split("/").at(-1)!;
      const { range } = await route.request().allHeaders();
      const content = name === "plan.pmtiles" ? tiles : file(name);
      asked.push(`${name} ${range ?? "whole"}`);
      const [, from = "0", to = String(content.size - 1)] = /^bytes=(\d+)-(\d+)$/.exec(range ?? "") ?? [];
      const end = Math.min(content.size, Number(to) + 1);
      await route.fulfill({
        status: range === undefined ? 200 : 206,
        headers: {
          "content-type": "application/octet-stream",
          "content-range": `bytes ${from}-${end - 1}/${content.size}`,
        },
        body: Buffer.from(content.read(Number(from), end)),
      });
    });
  });
  afterEach(async () => closeQuietly());

  test("it draws what the whole plan draws, in the same layers", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, maplibre, smallOpenedPlan } = window.harness;
      const drawn = async (from: Parameters<typeof plugin.addBoughlineLayers>[1], zoom: number) => {
        const map = await window.openMap("map");
        map.jumpTo({ zoom });
        const handle = plugin.addBoughlineLayers(map, from);
        handle.addEventListener("error", ({ detail }) => console.error(detail.error.message));
        if (handle.isOpening) await new Promise((done) => handle.addEventListener("planload", done));
        await map.once("idle");
        const trees = (layer: string) =>
          [...new Set(map.queryRenderedFeatures({ layers: [layer] }).map(({ properties }) => properties.tree))].sort();
        const layers = map.getStyle().layers.map(({ id }) => id);
        const found = {
          layers,
          marks: trees("boughline-marks"),
          dots: trees("boughline-tree-dots"),
          crowns: trees("boughline-crowns"),
          bands: trees("boughline-crown-bands"),
        };
        handle.remove();
        map.remove();
        return found;
      };
      const tiled = () => plugin.tiledPlan(new URL("/tiled-plan/", location.href), maplibre);
      return {
        whole: [await drawn(smallOpenedPlan(), 16), await drawn(smallOpenedPlan(), 18)],
        tiled: [await drawn(tiled(), 16), await drawn(tiled(), 18)],
      };
    });
    expect(seen.whole[0]!.marks.length).toBeGreaterThan(20);
    expect(seen.tiled).toEqual(seen.whole);
  });

  test("a click opens the tree's card from its own records alone", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, maplibre, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const handle = plugin.addPlan(map, plugin.tiledPlan("/tiled-plan/", maplibre));
      handle.addEventListener("error", ({ detail }) => console.error(detail.error.message));
      await new Promise((done) => handle.addEventListener("planload", done));
      await map.once("idle");
      const { trees } = smallOpenedPlan().plan;
      const tree = trees.find(({ id }) => id === "T011")!;
      const told = new Promise<string | null>((done) =>
        handle.addEventListener("treeselect", ({ detail }) => done(detail.treeId)),
      );
      map.jumpTo({ center: [tree.lonDeg, tree.latDeg], zoom: 19 });
      await map.once("idle");
      const { x, y } = map.project([tree.lonDeg, tree.latDeg]);
      const box = map.getCanvas().getBoundingClientRect();
      for (const type of ["mousedown", "mouseup", "click"])
        map
          .getCanvas()
          .dispatchEvent(new MouseEvent(type, { clientX: box.left + x, clientY: box.top + y, bubbles: true }));
      const treeId = await told;
      const card = document.querySelector("boughline-tree-card");
      await (card as unknown as { updateComplete: Promise<boolean> }).updateComplete;
      const text = card?.shadowRoot?.textContent ?? "";
      map.remove();
      return { treeId, text };
    });
    expect(seen.treeId).toBe("T011");
    expect(seen.text).toContain("T011");
    const prescriptions = asked.filter((one) => one.startsWith("prescriptions.jsonl"));
    expect(prescriptions.length).toBe(1);
    expect(prescriptions[0]).toMatch(/bytes=\d+-\d+$/);
    expect(asked.filter((one) => one.startsWith("trees.geojson"))).toEqual([]);
    expect(asked.filter((one) => one.endsWith("pmtiles whole"))).toEqual([]);
  });

  test("filter, selection and a change of the host's style hold, and what is added is taken away", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, maplibre } = window.harness;
      const map = await window.openMap("map");
      const before = window.taken(map);
      const rounds = [];
      for (let round = 0; round < 2; round += 1) {
        const protocols = new Set<string>();
        const host: Parameters<typeof plugin.tiledPlan>[1] = {
          addProtocol: (name, load) => {
            protocols.add(name);
            maplibre.addProtocol(name, load);
          },
          removeProtocol: (name) => {
            protocols.delete(name);
            maplibre.removeProtocol(name);
          },
        };
        const handle = plugin.addBoughlineLayers(map, plugin.tiledPlan("/tiled-plan/", host));
        handle.addEventListener("error", ({ detail }) => console.error(detail.error.message));
        await new Promise((done) => handle.addEventListener("planload", done));
        handle.setFilter({ urgencies: ["now"] });
        await map.once("idle");
        handle.select("T003");
        map.setStyle({ version: 8, sources: {}, layers: [] });
        await map.once("idle");
        const urgencies = map
          .queryRenderedFeatures({ layers: ["boughline-marks"] })
          .map(({ properties }) => properties.urgency);
        const state = map.getFeatureState({ source: "boughline-tiles", sourceLayer: "trees", id: "T003" });
        const during = { urgencies: [...new Set(urgencies)], state, protocols: protocols.size };
        handle.remove();
        await map.once("idle");
        rounds.push({ during, after: window.taken(map), left: protocols.size });
      }
      map.remove();
      return { before, rounds };
    });
    for (const { during, after, left } of seen.rounds) {
      expect(during).toEqual({ urgencies: ["now"], state: { selected: true }, protocols: 1 });
      expect({ ...after, nodes: 0 }).toEqual({ ...seen.before, nodes: 0 });
      expect(left).toBe(0);
    }
  });
});
