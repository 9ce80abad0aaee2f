import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { serveView } from "../../src/cli/commands/view.ts";
import { writeRevision } from "../../src/cli/folder/write-revision.ts";
import { smallPlanFiles } from "../app/small-plan.ts";
import { accessFaults, drawn, SCREENS } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const COUNT = 12;
/** For what a page does after a click, on a machine busy with other things. */
const PATIENT = { timeout: 60_000 };
const NOTE = { plan: "small-plan", as_of: "2026-11-02", event: "enrich" };
/** For a map at 288 dots to the inch, which software draws slowly. */
const DRAWN = { timeout: 180_000 };
let browser: Browser;
let base: string;
let dir: string;
let server: Server;
let address: string;
let context: BrowserContext;
let complaints: string[];

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(() => browser?.close());

beforeEach(async () => {
  base = mkdtempSync(join(tmpdir(), "boughline-save-"));
  dir = join(base, "plan");
  await writeRevision(dir, smallPlanFiles(COUNT), { note: NOTE });
  context = await browser.newContext({
    viewport: SCREENS[0],
    reducedMotion: "reduce",
    permissions: ["clipboard-read", "clipboard-write"],
  });
  complaints = [];
});

afterEach(async () => {
  await context.close();
  server.close();
  rmSync(base, { recursive: true, force: true });
});

async function open(hash = "", isReadOnly = false): Promise<Page> {
  if (server === undefined || !server.listening) ({ server, address } = await serveView(dir, 0, { isReadOnly }));
  const page = await context.newPage();
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.goto(address + hash);
  await drawn(page);
  return page;
}

interface App extends Element {
  readonly hand: { readonly opened: { readonly plan: { readonly zones: readonly { readonly name: string }[] } } };
  readonly desk: { editZones(zones: readonly object[], label: string): void };
}

const rename = (page: Page, name: string) =>
  page.evaluate((to) => {
    const app = document.querySelector("boughline-app") as App;
    const zones = app.hand.opened.plan.zones.map((zone, at) => (at === 0 ? { ...zone, name: to } : zone));
    app.desk.editZones(zones, "Rename");
  }, name);

const zoneName = (page: Page) =>
  page.evaluate(() => (document.querySelector("boughline-app") as App).hand.opened.plan.zones[0]?.name);

const inFolder = (revision: number) => {
  const zones = JSON.parse(readFileSync(join(dir, "revisions", String(revision), "zones.geojson"), "utf8"));
  return zones.features[0].properties.name as string;
};

test("an edited plan is saved to its folder as the next revision, and again", { timeout: 300_000 }, async () => {
  const page = await open();
  expect(await page.getByRole("button", { name: "Save to the folder" }).count()).toBe(0);
  for (const [edit, revision] of [
    ["First", 2],
    ["Second", 3],
  ] as const) {
    await rename(page, edit);
    await page.getByText("Saved in this browser with 1 edit").waitFor();
    await page.getByRole("button", { name: "Save to the folder" }).click();
    await page.getByText(`Saved in the folder as revision ${revision}.`).waitFor();
    expect([inFolder(revision), await zoneName(page)]).toEqual([edit, edit]);
  }
  expect(inFolder(1)).toBe("Chapel Street 1");
  expect(await accessFaults(page)).toEqual([]);
  await page.reload();
  await drawn(page);
  expect(await zoneName(page)).toBe("Second");
  // Nothing of what is in the folder is kept beside it.
  expect(await page.locator("keep-line").getByRole("status").count()).toBe(0);
  expect(complaints).toEqual([]);
});

test("a folder that moved on meanwhile is not written over, and the edits stay", { timeout: 300_000 }, async () => {
  const page = await open();
  await rename(page, "Mine");
  await page.getByText("Saved in this browser with 1 edit").waitFor();
  const theirs = new Map(smallPlanFiles(COUNT));
  const manifest = JSON.parse(new TextDecoder().decode(theirs.get("plan.json")));
  theirs.set("plan.json", new TextEncoder().encode(JSON.stringify({ ...manifest, revision: 2 })));
  await writeRevision(dir, theirs, { note: { ...NOTE, event: "zone" }, replace: true });
  await page.getByRole("button", { name: "Save to the folder" }).click();
  await page.getByText("The folder has moved on to revision 2").waitFor();
  await page.getByText("Saved in this browser with 1 edit").waitFor();
  expect([inFolder(2), await zoneName(page)]).toEqual(["Chapel Street 1", "Mine"]);
  await page.reload();
  await drawn(page);
  await page.getByText("1 edit on revision 1 of this plan is saved in this browser too.").waitFor();
  expect(await zoneName(page)).toBe("Chapel Street 1");
  await page.getByRole("button", { name: "Open revision 1 with it" }).click();
  await expect.poll(() => zoneName(page), PATIENT).toBe("Mine");
  // The refusal is one that the browser itself writes to its console.
  expect(complaints.filter((line) => !line.includes("409"))).toEqual([]);
});

test("a reload goes on with edits that are not in the folder yet; a view that is read-only does not offer it", {
  timeout: 300_000,
}, async () => {
  const page = await open();
  await rename(page, "Kept");
  await page.getByText("Saved in this browser with 1 edit").waitFor();
  await page.reload();
  await drawn(page);
  await expect.poll(() => zoneName(page), PATIENT).toBe("Kept");
  await page.getByRole("button", { name: "Save to the folder" }).waitFor();
  await page.close();
  server.close();
  const other = await open("", true);
  await rename(other, "Looked at");
  await other.getByText("Saved in this browser with 1 edit").waitFor();
  expect(await other.getByRole("button", { name: "Save to the folder" }).count()).toBe(0);
  await other.getByRole("button", { name: "Download a copy" }).waitFor();
  expect(complaints).toEqual([]);
});

test("a plan is written to a folder the reader picks, and refused where another plan is", {
  timeout: 300_000,
}, async () => {
  // The picker itself is the browser's; the page's own private folder stands for what was picked.
  await context.addInitScript(() => {
    Object.assign(window, { showDirectoryPicker: () => navigator.storage.getDirectory() });
  });
  const page = await open();
  await page.evaluate(async () => {
    const app = document.querySelector("boughline-app") as unknown as {
      hand: { source: { read(name: string): Promise<Uint8Array | null> } };
      load(hand: object, isMadeHere: boolean): void;
    };
    const files = new Map<string, Uint8Array>();
    for (const name of [
      "plan.json",
      "prescriptions.jsonl",
      "trees.geojson",
      "conflicts.geojson",
      "surroundings.geojson",
      "sight.geojson",
      "zones.geojson",
      "findings.csv",
      "columns.json",
      "standard.json",
    ]) {
      const bytes = await app.hand.source.read(name);
      if (bytes !== null) files.set(name, bytes);
    }
    app.load({ ...app.hand, files, folder: undefined }, false);
  });
  const read = (name: string) =>
    page.evaluate(async (path) => {
      let folder = await navigator.storage.getDirectory();
      const parts = path.split("/");
      for (const part of parts.slice(0, -1)) folder = await folder.getDirectoryHandle(part);
      return (await (await folder.getFileHandle(parts.at(-1)!)).getFile()).text();
    }, name);
  await page.getByRole("button", { name: "Save to a folder" }).click();
  await page.getByText("Saved in the folder").waitFor();
  expect(await read("current")).toBe("revisions/1\n");
  await rename(page, "Picked");
  await page.getByText("Saved in this browser with 1 edit").waitFor();
  await page.getByRole("button", { name: "Save to a folder" }).click();
  await expect.poll(() => read("current"), PATIENT).toBe("revisions/2\n");
  const zones = JSON.parse(await read("revisions/2/zones.geojson"));
  expect(zones.features[0].properties.name).toBe("Picked");
  const history = (await read("history.jsonl")).trim().split("\n");
  expect(history.map((line) => JSON.parse(line))).toEqual([
    { revision: 1, plan: "small-plan", as_of: "2026-11-02", event: "edit" },
    { revision: 2, plan: "small-plan", as_of: "2026-11-02", event: "edit" },
  ]);
  await page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    const stream = await (await folder.getFileHandle("history.jsonl")).createWritable();
    await stream.write('{"revision":2,"plan":"another"}\n');
    await stream.close();
  });
  await rename(page, "Not there");
  await page.getByText("Saved in this browser with 1 edit").waitFor();
  await page.getByRole("button", { name: "Save to a folder" }).click();
  await page.getByText("Nothing was saved. The folder holds another plan.").waitFor();
  expect(await read("current")).toBe("revisions/2\n");
  expect(complaints).toEqual([]);
});

test("a link opens the view, the filters and the units it was copied at", { timeout: 300_000 }, async () => {
  const page = await open();
  await page.getByRole("button", { name: "Show meters" }).click();
  await page.getByRole("button", { name: /^Now/ }).click();
  await page.getByText("3 of 12 trees").waitFor();
  await page.getByRole("button", { name: "Copy link" }).click();
  await page.getByText("Link copied.").waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  expect(new URL(link).hash).toBe("#plan=small-plan&urgency=now&units=metric");
  // The address follows, so that a reload comes back to the same.
  await expect.poll(() => page.evaluate(() => location.hash), PATIENT).toBe(new URL(link).hash);
  const hash = `${new URL(link).hash}&zone=Z-1&kind=__proto__&at=x`;
  const other = await open(hash);
  await other.getByRole("heading", { name: "Order of work" }).waitFor();
  await other.getByRole("button", { name: "Show feet" }).waitFor();
  await other.getByRole("button", { name: "Back to zones" }).click();
  await other.locator("side-sheet nav").getByRole("button", { name: "Trees" }).click();
  await other.getByText("3 of 12 trees").waitFor();
  const stranger = await open("#plan=another&urgency=now");
  await stranger.getByText("12 trees").first().waitFor();
  expect(complaints).toEqual([]);
});

test("a link holds where the map looks, for a list, a tree and a zone", { timeout: 300_000 }, async () => {
  const page = await open();
  const place = () =>
    page.evaluate(() => {
      const { map } = document.querySelector("map-view") as unknown as {
        map: { getCenter(): { lng: number; lat: number }; getZoom(): number };
      };
      return [map.getCenter().lng.toFixed(5), map.getCenter().lat.toFixed(5), map.getZoom().toFixed(1)].join(",");
    });
  const kept = () => page.evaluate(() => new URLSearchParams(location.hash.slice(1)).get("at"));
  // The whole plan is what an address without a place shows.
  expect(await kept()).toBeNull();
  const [lon, lat, zoom] = (await place()).split(",").map(Number) as [number, number, number];
  const at = `${(lon + 0.0004).toFixed(5)},${(lat - 0.0002).toFixed(5)},${(zoom + 1).toFixed(1)}`;
  for (const view of ["", "&tree=T-2", "&zone=Z-1"]) {
    await page.goto("about:blank");
    await page.goto(`${address}#plan=small-plan${view}&at=${at}`);
    await drawn(page);
    await expect.poll(place, PATIENT).toBe(at);
  }
  await page.locator("map-view canvas").focus();
  await page.keyboard.press("ArrowRight");
  await expect.poll(place, PATIENT).not.toBe(at);
  await expect.poll(kept, PATIENT).toBe(await place());
  // A reload comes back to just that place.
  const moved = await place();
  await page.reload();
  await drawn(page);
  await expect.poll(place, PATIENT).toBe(moved);
  expect(complaints).toEqual([]);
});

test("the map is printed on one sheet with legend, scale, date, plan and caution", { timeout: 600_000 }, async () => {
  const page = await open();
  const from = page.getByRole("button", { name: "Print map" });
  await from.click();
  const sheet = page.locator("print-view");
  await sheet.getByRole("img", { name: /^Map of the plan/ }).waitFor(DRAWN);
  await sheet.getByText(/^1:[\d,]+ at full size$/).waitFor();
  for (const text of [
    "as of 2 Nov 2026",
    "Plan small-plan, revision 1",
    "never says that a place is safe",
    "next window",
  ]) {
    await sheet.getByText(text, { exact: false }).first().waitFor();
  }
  expect(await accessFaults(page)).toEqual([]);
  for (const [paper, widthPt, heightPt] of [
    ["letter", 792, 612],
    ["a4-upright", 595, 842],
  ] as const) {
    await sheet.locator("select").selectOption(paper);
    await sheet.getByText("Print at 100 %").waitFor(DRAWN);
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString("latin1");
    const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/g)];
    expect(boxes.map(([, width, height]) => [Math.round(Number(width)), Math.round(Number(height))])).toEqual([
      [widthPt, heightPt],
    ]);
  }
  await page.keyboard.press("Escape");
  await expect.poll(() => sheet.count(), PATIENT).toBe(0);
  expect(await from.evaluate((button) => (button.getRootNode() as ShadowRoot).activeElement === button)).toBe(true);
  expect(complaints).toEqual([]);
});
