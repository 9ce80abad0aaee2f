import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";

/** A page of the harness on one of the map library's majors, that keeps account of what it complains about and asks strangers for. */
export async function openHarness(
  browser: Browser,
  address: string,
  major: string,
): Promise<{ readonly page: Page; closeQuietly(): Promise<void> }> {
  const faults: string[] = [];
  const page = await browser.newPage({ viewport: { width: 1200, height: 800 } });
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("request", (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (protocol.startsWith("http") && hostname !== "127.0.0.1" && hostname !== "localhost")
      faults.push(`asked for ${request.url()}`);
  });
  await page.goto(`${address}?maplibre=${major}`);
  await page.waitForFunction(() => window.harness !== undefined);
  expect(await page.evaluate(() => window.harness.maplibre.getVersion())).toMatch(new RegExp(`^${major}\\.`));
  await page.evaluate(() => {
    const { maplibre, MIDDLE } = window.harness;
    window.openMap = async (container, style) => {
      const map = new maplibre.Map({
        container,
        style: style ?? { version: 8, sources: {}, layers: [] },
        center: [MIDDLE[0], MIDDLE[1]],
        zoom: 18,
        fadeDuration: 0,
        attributionControl: false,
      });
      map.on("error", (event) => console.error(`map: ${event.error.message}`));
      await map.once("load");
      return map;
    };
    window.taken = (map) => ({
      layers: map.getStyle().layers.map((layer) => layer.id),
      sources: Object.keys(map.getStyle().sources),
      images: map.listImages(),
      nodes: map.getContainer().querySelectorAll("*").length,
      cursor: map.getCanvas().style.cursor,
    });
  });
  return {
    page,
    closeQuietly: async () => {
      await page.close();
      expect(faults).toEqual([]);
    },
  };
}
