import { createReadStream, existsSync } from "node:fs";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { type Mount, serveFolders } from "../../src/cli/server/static-server.ts";
import type { PrescriptionLine } from "../../src/core/plan/read-plan.ts";
import { launchChromium } from "../browser/chromium.ts";
import { MAP_PAGE } from "./map-page.ts";

/**
 * Measures a plan on a map in a headless browser beside a bare map with the same trees as plain circles, in one run: `npm run bench:map -- REVISION`, a
 * revision's folder with `plan.pmtiles` in it. `--whole` opens the plan by its files too. Needs the built plugin.
 */
async function main([revision = "", ...flags]: readonly string[]): Promise<void> {
  if (!existsSync(join(revision, "plan.pmtiles"))) throw new Error("Expected a revision's folder with plan.pmtiles");
  const points = await pointsOf(join(revision, "prescriptions.jsonl"));
  const mounts: Mount[] = [
    { path: "/", text: MAP_PAGE },
    { path: "/index.html", text: MAP_PAGE },
    { path: "/points.json", text: points.text },
    { path: "/plan/", folder: revision },
    { path: "/plugin/", folder: "dist/plugin" },
    { path: "/maplibre/", folder: "node_modules/maplibre-gl/dist" },
  ];
  const { server, address } = await serveFolders(mounts, 0);
  const browser = await launchChromium();
  try {
    const open = async (what: string) => {
      const page = await browser.newPage({ viewport: { width: 1200, height: 800 } });
      page.on("console", (message) => {
        if (message.type() === "error") console.error(message.text());
      });
      await page.goto(`${address}index.html`);
      await page.waitForFunction("window.bench !== undefined");
      const opened = (await page.evaluate(
        `bench.open(${JSON.stringify(what)}, ${JSON.stringify(points.middle)})`,
      )) as Took;
      return { page, opened };
    };
    console.log(`${points.count} trees`);
    const kinds = ["points", "tiles", ...(flags.includes("--whole") ? ["whole"] : [])];
    const frames = new Map<string, number[][]>(kinds.map((kind) => [kind, ZOOMS.map(() => [])]));
    const pages = new Map<string, Awaited<ReturnType<typeof open>>>();
    for (const kind of kinds) {
      const at = await open(kind);
      pages.set(kind, at);
      console.log(`${kind}: drawn after ${at.opened.ms.toFixed(0)} ms, long tasks ${longest(at.opened.longMs)}`);
    }
    // Rounds one after another, so that a loud minute of the machine falls on all.
    for (let round = 0; round < ROUNDS; round += 1)
      for (const [kind, { page }] of pages)
        for (const [place, zoom] of ZOOMS.entries()) {
          await page.bringToFront();
          frames.get(kind)![place]!.push(...((await page.evaluate(`bench.pan(${zoom}, ${FRAMES})`)) as number[]));
        }
    for (const [place, zoom] of ZOOMS.entries()) {
      const bare = median(frames.get("points")![place]!);
      for (const kind of kinds) {
        const ms = median(frames.get(kind)![place]!);
        console.log(`pan at zoom ${zoom}, ${kind}: ${ms.toFixed(1)} ms a frame, ${(ms / bare).toFixed(2)}x`);
      }
    }
    for (const [kind, { page }] of pages) {
      if (kind === "points") continue;
      await page.bringToFront();
      const took = (await page.evaluate('bench.filter({ urgencies: ["now"] })')) as Took;
      console.log(`${kind}: filter drawn after ${took.ms.toFixed(0)} ms, long tasks ${longest(took.longMs)}`);
    }
  } finally {
    await browser.close();
    server.close();
  }
}

interface Took {
  readonly ms: number;
  readonly longMs: readonly number[];
}

const ZOOMS = [13, 15, 17];
const FRAMES = 60;
const ROUNDS = 3;

const longest = (ms: readonly number[]): string =>
  ms.length === 0 ? "none" : `${ms.length}, the longest ${Math.max(...ms).toFixed(0)} ms`;

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/** The trees of a plan as plain points, read a line at a time. */
async function pointsOf(path: string): Promise<{ text: string; count: number; middle: [number, number] }> {
  const places: [number, number][] = [];
  for await (const line of createInterface({ input: createReadStream(path) })) {
    const { lonDeg, latDeg } = (JSON.parse(line) as PrescriptionLine).tree;
    places.push([lonDeg, latDeg]);
  }
  const features = places.map((coordinates) => ({
    type: "Feature",
    properties: {},
    geometry: { type: "Point", coordinates },
  }));
  const middle: [number, number] = [median(places.map(([lon]) => lon)), median(places.map(([, lat]) => lat))];
  return { text: JSON.stringify({ type: "FeatureCollection", features }), count: places.length, middle };
}

await main(process.argv.slice(2));
