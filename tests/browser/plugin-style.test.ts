import type { StyleSpecification } from "maplibre-gl";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { styleFragment } from "../../src/map/portable/style-fragment.ts";
import { launchChromium } from "./chromium.ts";
import { openHarness } from "./plugin-page.ts";
import { serveHarness } from "./serve-harness.ts";

let served: Awaited<ReturnType<typeof serveHarness>>;
let browser: Browser;

beforeAll(async () => {
  served = await serveHarness();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

test.each(["5", "6"])("the style fragment draws marks and crowns at true size on MapLibre %s", async (major) => {
  const { page, closeQuietly } = await openHarness(browser, served.address, major);
  const warnings: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "warning" && message.text().includes("boughline")) warnings.push(message.text());
  });
  const seen = await page.evaluate(
    async (json: string) => {
      const fragment = JSON.parse(json) as StyleSpecification;
      const { smallOpenedPlan } = window.harness;
      const opened = smallOpenedPlan();
      const map = await window.openMap("map");
      map.addSprite("boughline", new URL("/styles/sprite-light", location.href).href);
      for (const id of Object.keys(fragment.sources)) {
        const name = id.slice("boughline-".length) as "trees" | "conflicts" | "sight" | "zones" | "surroundings";
        map.addSource(id, { type: "geojson", data: opened[name] as never });
      }
      for (const layer of fragment.layers) map.addLayer(layer);
      map.setZoom(20);
      await map.once("idle");
      const rendered = (layer: string) => map.queryRenderedFeatures({ layers: [layer] }).length;
      const drawn = {
        images: map.listImages().filter((id) => id.startsWith("boughline:mark-")).length,
        marks: rendered("boughline-marks"),
        zones: rendered("boughline-zones"),
        encroachments: rendered("boughline-encroachments"),
      };
      for (const { id } of fragment.layers)
        if (id !== "boughline-crowns") map.setLayoutProperty(id, "visibility", "none");
      await map.once("idle");
      const { width, height } = map.getCanvas().getBoundingClientRect();
      // Crowns that reach no neighbor's, the trees being 11 m apart and the largest crown 5.2 m in radius.
      const places = opened.plan.trees
        .filter((tree) => tree.radius.valueM < 4)
        .flatMap((tree) => {
          const { x, y } = map.project([tree.lonDeg, tree.latDeg]);
          // Meters in a pixel at zoom 20, from the circumference of the web map's sphere and tiles of 512 pixels.
          const metersPerPx = (40_075_016.686 * Math.cos((tree.latDeg * Math.PI) / 180)) / 512 / 2 ** 20;
          const reachPx = tree.radius.valueM / metersPerPx;
          const isInView = x > 2 * reachPx && y > 0 && x < width - 2 * reachPx && y < height;
          return isInView ? [{ y, insideX: x + reachPx * 0.96, outsideX: x + reachPx * 1.04 }] : [];
        });
      return { ...drawn, places };
    },
    JSON.stringify(styleFragment("light")),
  );
  const picture = await page.screenshot({ timeout: 120_000 });
  const blanks = await page.evaluate(
    async ({ base64, places }) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d")!;
      context.drawImage(bitmap, 0, 0);
      const isBlank = (x: number, y: number) =>
        [...context.getImageData(Math.round(x), Math.round(y), 1, 1).data.subarray(0, 3)].every((one) => one === 255);
      return places.map(({ y, insideX, outsideX }) => [isBlank(insideX, y), isBlank(outsideX, y)]);
    },
    { base64: picture.toString("base64"), places: seen.places },
  );
  // Seven remedies, four tones, three certainties, and the ring of a clear tree.
  expect(seen.images).toBe(85);
  expect(seen.marks).toBeGreaterThan(0);
  expect(seen.zones).toBeGreaterThan(0);
  expect(seen.encroachments).toBeGreaterThan(0);
  expect(blanks.length).toBeGreaterThan(2);
  for (const one of blanks) expect(one).toEqual([false, true]);
  expect(warnings).toEqual([]);
  await closeQuietly();
});

test("the print theme is black on white on the map and in the panel", async () => {
  const { page, closeQuietly } = await openHarness(browser, served.address, "6");
  const seen = await page.evaluate(async () => {
    const { plugin, smallOpenedPlan } = window.harness;
    const map = await window.openMap("map");
    const control = new plugin.BoughlineControl({ plan: smallOpenedPlan(), theme: "print", open: true });
    map.addControl(control);
    await map.once("idle");
    const color = (selector: string, name: "color" | "backgroundColor") =>
      getComputedStyle(document.querySelector(selector)!)[name];
    const legend = document.querySelector("boughline-legend")!;
    await (legend as HTMLElement & { updateComplete: Promise<unknown> }).updateComplete;
    return {
      ground: map.getPaintProperty("boughline-ground", "background-color"),
      panel: [color(".boughline-control", "backgroundColor"), color(".boughline-control", "color")],
      legend: getComputedStyle(legend.shadowRoot!.querySelector(".root")!).color,
    };
  });
  expect(seen).toEqual({ ground: "#ffffff", panel: ["rgb(255, 255, 255)", "rgb(0, 0, 0)"], legend: "rgb(0, 0, 0)" });
  await closeQuietly();
});
