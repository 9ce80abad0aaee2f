import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { joinBytes } from "../../src/formats/join-bytes.ts";
import { memoryFile } from "../../src/formats/tiles/byte-file.ts";
import { planTiles } from "../../src/map/tiles/plan-tiles.ts";
import { smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, openApp, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 60;
const LARGE = 1_000_000;
let browser: Browser;
let server: Server;
let address: string;
let folder: string;

/** The small plan with its tiles; its manifest counts more trees than a page reads whole. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "boughline-"));
  const files = new Map(smallPlanFiles(COUNT));
  const bytesOf = (content: string | Uint8Array) =>
    typeof content === "string" ? new TextEncoder().encode(content) : content;
  const tiles = joinBytes(planTiles((name) => memoryFile(bytesOf(files.get(name)!))));
  for (const [name, content] of files) writeFileSync(join(folder, name), content);
  const manifest = JSON.parse(new TextDecoder().decode(bytesOf(files.get("plan.json")!)));
  writeFileSync(
    join(folder, "plan.json"),
    JSON.stringify({ ...manifest, counts: { ...manifest.counts, trees: LARGE } }),
  );
  writeFileSync(join(folder, "plan.pmtiles"), tiles);
  ({ server, address } = await serveApp({ path: "/plan/current/", folder }));
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true });
});

const [DESK, , PHONE] = SCREENS;
test.each([
  { ...DESK, theme: "light" as const },
  { ...PHONE, theme: "dark" as const },
])("a plan too large to be read whole is looked at by its tiles, on a $name", { timeout: 180_000 }, async (look) => {
  const { page, expectQuiet, close } = await openApp(browser, address, look, look);
  const asked: string[] = [];
  page.on("request", (request) => {
    asked.push(`${new URL(request.url()).pathname.split("/").at(-1)} ${request.headers().range ?? "whole"}`);
  });
  await page.waitForSelector("large-map[drawn]", { timeout: 90_000 });
  const said = page.locator("marks-list [role=status]");
  await expect.poll(() => said.textContent(), { timeout: 60_000 }).toMatch(new RegExp(`^${COUNT} trees in view`));
  await page.getByText(/1,000,000 trees/).waitFor();
  expect(await accessFaults(page)).toEqual([]);

  await page.getByRole("button", { name: /^Now/ }).click();
  await expect.poll(() => said.textContent()).not.toMatch(new RegExp(`^${COUNT} trees`));
  const first = page.locator("marks-list li button").first();
  const treeId = await first.locator("b").textContent();
  await first.click();
  await page.locator("boughline-tree-card h2").getByText(treeId!).waitFor();
  expect(await accessFaults(page)).toEqual([]);
  await page.getByRole("button", { name: "Back to the trees in view" }).click();
  await page.locator("marks-list li button").first().waitFor();

  // Of the large files only parts were read; surroundings, sight and findings not at all.
  for (const name of ["prescriptions.jsonl", "conflicts.geojson", "plan.pmtiles"])
    expect(asked.filter((one) => one.startsWith(name)).every((one) => one.includes("bytes="))).toBe(true);
  for (const name of ["trees.geojson", "surroundings.geojson", "sight.geojson", "findings.csv"])
    expect(asked.filter((one) => one.startsWith(name))).toEqual([]);
  expectQuiet();
  await close();
});

test("the reader may have it read whole all the same", async () => {
  const { page, close } = await openApp(browser, `${address}?by=whole`, DESK);
  await drawn(page);
  await close();
});
