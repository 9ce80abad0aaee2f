import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { serveView } from "../../src/cli/commands/view.ts";
import { smallPlanFiles } from "../app/small-plan.ts";
import { drawn, openApp, SCREENS } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

let browser: Browser;
let folder: string;
let named: LoopbackHost;
let stranger: LoopbackHost;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "boughline-view-"));
  const revision = join(folder, "revisions", "1");
  mkdirSync(revision, { recursive: true });
  for (const [name, bytes] of smallPlanFiles(20)) writeFileSync(join(revision, name), bytes);
  symlinkSync("revisions/1", join(folder, "current"));
  stranger = await loopbackHost({});
  named = await loopbackHost({
    "/style.json": (origin) => ({
      version: 8,
      sources: {
        town: { type: "geojson", data: `${origin}/town.geojson` },
        elsewhere: { type: "geojson", data: `${stranger.origin}/town.geojson` },
      },
      layers: [
        { id: "land", type: "background", paint: { "background-color": "#dfe8d8" } },
        { id: "town", type: "line", source: "town" },
        { id: "elsewhere", type: "line", source: "elsewhere" },
      ],
    }),
    "/town.geojson": () => ({ type: "FeatureCollection", features: [] }),
  });
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  named?.server.close();
  stranger?.server.close();
  rmSync(folder, { recursive: true });
});

test("a named base map is drawn below the plan, and no origin but its own is asked for anything", async () => {
  const { server, address } = await serveView(folder, 0, { basemap: `${named.origin}/style.json` });
  const { page, close } = await openApp(browser, address, SCREENS[0], { allowed: [named.origin] });
  await drawn(page);
  const layers = await page.evaluate(() => {
    const { map } = document.querySelector("map-view") as unknown as {
      map: { getStyle(): { layers: { id: string }[] } };
    };
    return map.getStyle().layers.map((layer) => layer.id);
  });
  expect(layers.slice(0, 3)).toEqual(["land", "town", "elsewhere"]);
  expect(layers).toContain("boughline-marks");
  expect(layers).not.toContain("boughline-ground");
  expect(named.asked).toEqual(expect.arrayContaining(["/style.json", "/town.geojson"]));
  expect(stranger.asked).toEqual([]);
  // The map cannot be silent about what it was not allowed to fetch.
  await page.getByText(/The map reports/).waitFor();
  await close();
  server.close();
});

test("without a base map the page may ask its own server only", async () => {
  const { server, address } = await serveView(folder, 0);
  const answer = await fetch(address);
  const policy = answer.headers.get("content-security-policy") ?? "";
  expect(policy).toContain("connect-src 'self';");
  const page = await answer.text();
  expect(page).toContain("connect-src 'self';");
  const before = named.asked.length;
  const { page: opened, close } = await openApp(browser, address, SCREENS[0]);
  await drawn(opened);
  const outcome = await opened.evaluate((url) => fetch(url).then(String, String), `${named.origin}/town.geojson`);
  expect(outcome).toContain("Failed to fetch");
  expect(named.asked.length).toBe(before);
  await close();
  server.close();
});

interface LoopbackHost {
  readonly server: Server;
  readonly origin: string;
  /** Paths asked for, in order. */
  readonly asked: string[];
}

/** A host on loopback that answers other origins with JSON and remembers what it was asked for. */
async function loopbackHost(answers: Record<string, (origin: string) => object>): Promise<LoopbackHost> {
  const asked: string[] = [];
  const server = createServer((request, response) => {
    const path = request.url ?? "/";
    asked.push(path);
    const answer = answers[path];
    response.writeHead(answer === undefined ? 404 : 200, {
      "Content-Type": "application/json",
      "Access-Control-Allow-Origin": "*",
    });
    response.end(answer === undefined ? "" : JSON.stringify(answer(origin)));
  });
  await new Promise<void>((resolve) => {
    server.listen(0, "127.0.0.1", resolve);
  });
  const address = server.address();
  const origin = `http://127.0.0.1:${typeof address === "object" && address !== null ? address.port : 0}`;
  return { server, origin, asked };
}
