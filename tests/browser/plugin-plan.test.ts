import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { zip } from "../../src/formats/zip.ts";
import { smallPlanFiles } from "../app/small-plan.ts";
import { launchChromium } from "./chromium.ts";
import { openHarness } from "./plugin-page.ts";
import { serveHarness } from "./serve-harness.ts";

const files = smallPlanFiles(20);
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
    await page.route("**/plan/current/*", async (route) => {
      const bytes = files.get(new URL(route.request().url()).pathname.split("/").at(-1)!);
      await (bytes === undefined
        ? route.fulfill({ status: 404, body: "" })
        : route.fulfill({ status: 200, body: Buffer.from(bytes) }));
    });
  });
  afterEach(async () => closeQuietly());

  test("one call opens a plan from an address, files, a zip or objects, and moves the map to it", async () => {
    const texts = [...files].map(([name, bytes]) => [name, new TextDecoder().decode(bytes)] as const);
    const packed = zip([...files].map(([name, bytes]) => ({ name, bytes })));
    const seen = await page.evaluate(
      async ({ texts, packed }) => {
        const { plugin } = window.harness;
        const map = await window.openMap("map");
        const fileOf = (name: string, bits: BlobPart, path = "") =>
          Object.defineProperty(new File([bits], name), "webkitRelativePath", { value: path });
        const revision = (number: number) =>
          texts.map(([name, text]) => fileOf(name, text, `plan/revisions/${number}/${name}`));
        const broken = [fileOf("plan.json", "not json", "plan/revisions/9/plan.json")];
        const objects = Object.fromEntries(
          texts.map(([name, text]) => [name, name.endsWith("json") ? JSON.parse(text) : text]),
        ) as { "plan.json": unknown };
        const inputs = {
          address: new URL("/plan/current/", location.href).href,
          url: new URL("/plan/current", location.href),
          files: texts.map(([name, text]) => fileOf(name, text)),
          // The newest of a plan folder's revisions counts, by number: 10 comes after 9.
          folder: [...broken, ...revision(10)],
          zip: [fileOf("saved.zip", new Uint8Array(packed))],
          objects,
        };
        const counts: Record<string, unknown> = {};
        for (const [name, input] of Object.entries(inputs)) {
          map.jumpTo({ center: [0, 0], zoom: 3 });
          const plan = plugin.addPlan(map, input, { fit: true });
          const opened = await new Promise<{ readonly plan: { readonly trees: readonly unknown[] } }>(
            (resolve, reject) => {
              plan.addEventListener("planload", ({ detail }) => resolve(detail.opened));
              plan.addEventListener("error", ({ detail }) => reject(detail.error));
            },
          );
          const { lng, lat } = map.getCenter();
          counts[name] = [opened.plan.trees.length, lng.toFixed(2), lat.toFixed(2), map.getZoom() > 15];
          plan.remove();
        }
        return {
          counts,
          left: window.taken(map).layers,
          controls: document.querySelectorAll(".boughline-control").length,
        };
      },
      { texts, packed: [...packed] },
    );
    for (const name of ["address", "url", "files", "folder", "zip", "objects"])
      expect([name, ...(seen.counts[name] as unknown[])]).toEqual([name, 20, "-139.50", "44.25", true]);
    expect(seen.left).toEqual([]);
    expect(seen.controls).toBe(0);
  });

  test("what cannot be opened is told by an event and in the panel; what comes too late is let go", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const errors: string[] = [];
      const control = new plugin.BoughlineControl({ plan: [new File([], "notes.txt")] });
      control.addEventListener("error", ({ detail }) => errors.push(detail.error.message));
      map.addControl(control);
      const words = () => document.querySelector(".boughline-control .boughline-empty")?.textContent ?? null;
      const opening = words();
      await new Promise((resolve) => control.addEventListener("error", resolve, { once: true }));
      const failed = words();
      const late = control.load("/plan/current/");
      control.setPlan(smallOpenedPlan());
      const lateResult = await late;
      const trees = control.plan?.plan.trees.length;
      const bad = await control.load(7 as never);
      const leaving = control.load("/plan/current/");
      map.removeControl(control);
      return {
        opening,
        failed,
        lateResult,
        trees,
        bad,
        leaving: await leaving,
        errors,
        left: window.taken(map).layers,
      };
    });
    expect(seen.opening).toBe("Opening the plan.");
    expect(seen.failed).toBe("The plan could not be opened.");
    expect(seen.errors).toEqual([
      "These files hold no plan: plan.json is missing",
      "Expected a plan, its address, files or objects, got 7",
    ]);
    expect([seen.lateResult, seen.bad, seen.leaving]).toEqual([null, null, null]);
    expect(seen.trees).toBe(60);
    expect(seen.left).toEqual([]);
  });

  test("legend and card can each be left out", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const shown = () => {
        const panel = document.querySelector<HTMLElement>(".boughline-control");
        if (panel === null) return "none";
        if (panel.hidden || panel.offsetHeight === 0) return "hidden";
        return panel.querySelector(".boughline-content")?.firstElementChild?.tagName ?? "empty";
      };
      const states: string[] = [];
      for (const parts of [{ legend: false }, { card: false }, { legend: false, card: false }]) {
        const plan = plugin.addPlan(map, smallOpenedPlan(), { ...parts, open: true });
        states.push(shown());
        plan.select("T002");
        states.push(shown());
        plan.remove();
      }
      return states;
    });
    expect(seen).toEqual(["hidden", "BOUGHLINE-TREE-CARD", "BOUGHLINE-LEGEND", "BOUGHLINE-LEGEND", "none", "none"]);
  });

  test("the host says below which of its layers a plan goes, also after it changed its style", async () => {
    const orders = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const style = (name: string) => ({
        version: 8 as const,
        sources: { host: { type: "geojson" as const, data: { type: "FeatureCollection" as const, features: [] } } },
        layers: ["land", "roads", "labels"].map((id) => ({
          id: `${name}-${id}`,
          type: "line" as const,
          source: "host",
        })),
      });
      const map = await window.openMap("map", style("day"));
      plugin.addPlan(map, smallOpenedPlan(), {
        parts: ["marks"],
        beforeId: ({ layers }) => layers.find(({ id }) => id.endsWith("-roads"))?.id,
      });
      const order = () => map.getStyle().layers.map(({ id }) => id);
      const first = order();
      map.setStyle(style("night"), { diff: false });
      await map.once("idle");
      return [first, order()];
    });
    for (const [at, name] of ["day", "night"].entries()) {
      expect(orders[at]!.at(0)).toBe(`${name}-land`);
      expect(orders[at]!.slice(-2)).toEqual([`${name}-roads`, `${name}-labels`]);
      expect(orders[at]!.length).toBeGreaterThan(5);
    }
  });

  test("layers, images, selection and filter are there again after the graphics context was lost", async () => {
    const seen = await page.evaluate(async () => {
      const { plugin, smallOpenedPlan } = window.harness;
      const map = await window.openMap("map");
      const control = new plugin.BoughlineControl({ plan: smallOpenedPlan(), theme: "dark" });
      control.addEventListener("error", (event) => console.error(event.detail.error.message));
      map.addControl(control);
      control.select("T003");
      control.setFilter({ urgencies: ["now"] });
      await map.once("idle");
      const look = () => ({
        ...window.taken(map),
        tree: map.getFeatureState({ source: "boughline-trees", id: "T003" }),
        urgencies: [
          ...new Set(
            map.queryRenderedFeatures({ layers: ["boughline-marks"] }).map(({ properties }) => properties.urgency),
          ),
        ],
        isDrawn: map.queryRenderedFeatures({ layers: ["boughline-marks"] }).length > 0,
      });
      const before = look();
      const gl = map.getCanvas().getContext("webgl2")!;
      const lose = gl.getExtension("WEBGL_lose_context")!;
      const lost = map.once("webglcontextlost");
      lose.loseContext();
      await lost;
      const restored = map.once("webglcontextrestored");
      setTimeout(() => lose.restoreContext(), 50);
      await restored;
      await map.once("idle");
      const after = look();
      map.removeControl(control);
      await map.once("idle");
      return { before, after, left: window.taken(map) };
    });
    expect(seen.before.isDrawn).toBe(true);
    expect(seen.before.urgencies).toEqual(["now"]);
    expect({ ...seen.after, images: [...seen.after.images].sort() }).toEqual({
      ...seen.before,
      images: [...seen.before.images].sort(),
    });
    expect([seen.left.layers, seen.left.sources, seen.left.images]).toEqual([[], [], []]);
  });
});
