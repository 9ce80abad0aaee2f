import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { accessFaults, drawn, drop, openApp, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

const TOWN = new URL("../../sample-geojson/", import.meta.url);
let browser: Browser;
let server: Server;
let address: string;

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

test.each(SCREENS)("dropped files become a plan on a $name", async (screen) => {
  const { page, expectQuiet, close } = await openApp(browser, address, screen);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [
    ["Street_Trees_2026.geojson", readFileSync(new URL("trees.geojson", TOWN), "utf8")],
    ["layer7.json", readFileSync(new URL("roads.geojson", TOWN), "utf8")],
    ["notes.txt", "not a map"],
  ]);
  await page.getByRole("heading", { name: "What is in these files?" }).waitFor();
  expect(await page.getByLabel("Layer of Street_Trees_2026.geojson").inputValue()).toBe("trees");
  // Its name says nothing; lines with lanes and a speed are roads.
  await page.getByRole("button", { name: /^Roads/ }).click();
  expect(await page.getByLabel("Layer of layer7.json").inputValue()).toBe("roads");
  await page.getByText("notes.txt was left out").waitFor();
  expect(await accessFaults(page)).toEqual([]);
  await page.getByLabel("As of").fill("2026-11-02");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await drawn(page);
  await page.getByRole("heading", { name: "Street_Trees_2026" }).waitFor();
  expectQuiet();
  await close();
});

test("closing the page asks first while a plan made from dropped files is saved nowhere", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  // A browser that keeps nothing for the page; what one keeps that does is tried elsewhere.
  await page.evaluate(() => Object.defineProperty(window, "indexedDB", { value: undefined }));
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [["trees.geojson", readFileSync(new URL("trees.geojson", TOWN), "utf8")]]);
  await page.getByLabel("As of").fill("2026-11-02");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await drawn(page);
  await page.getByText("Not saved. This browser keeps nothing for the page").waitFor();
  expect(await accessFaults(page)).toEqual([]);
  const asked = page.waitForEvent("dialog");
  await page.close({ runBeforeUnload: true });
  const dialog = await asked;
  expect(dialog.type()).toBe("beforeunload");
  await dialog.dismiss();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save plan as zip" }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/\.zip$/);
  expectQuiet();
  await close();
});

test("a plan made from dropped files is kept at once, and can be gone on with", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [["Main_Street.geojson", readFileSync(new URL("trees.geojson", TOWN), "utf8")]]);
  await page.getByLabel("As of").fill("2026-11-02");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await drawn(page);
  await page.getByText("Saved in this browser").waitFor();
  await page.reload();
  await page.getByRole("button", { name: "Go on with Main_Street" }).click();
  await drawn(page);
  await page.getByRole("heading", { name: "Main_Street" }).waitFor();
  expectQuiet();
  await close();
});

test("without trees no plan is made, and a file that is no map is refused in words", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  await drop(page, [["buildings.geojson", '{"type":"FeatureCollection","features":[]}']]);
  await page.getByRole("button", { name: "Make the plan" }).click();
  await page.getByText("One file must be the trees").waitFor();
  await drop(page, [["trees.geojson", '{"type":"FeatureCollection","features":[{"type":']]);
  // Said beside the file, before anything is made.
  await page.locator("source-card .problem").waitFor();
  await page.getByRole("button", { name: "Make the plan" }).click();
  await page.getByText(/^trees\.geojson cannot be used/).waitFor();
  expect(await accessFaults(page)).toEqual([]);
  await page.getByLabel("Layer of trees.geojson").selectOption("");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await page.getByText("One file must be the trees").waitFor();
  expectQuiet();
  await close();
});

test("a plan in the making can be cancelled", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Open the sample town" }).click();
  await page.getByRole("button", { name: "Cancel" }).click();
  await page.getByRole("button", { name: "Open the sample town" }).waitFor();
  expect(await page.locator("progress-dialog dialog").count()).toBe(0);
  expectQuiet();
  await close();
});

test("hostile names and values stay text", async () => {
  const { page, expectQuiet, close } = await openApp(browser, address, SCREENS[0]);
  await page.getByRole("button", { name: "Choose files" }).waitFor();
  const hostile = '<img src=x onerror="window.__pwned=1">';
  const tree = {
    type: "Feature",
    properties: {
      id: hostile,
      species: hostile,
      street: "__proto__",
      dbh: 30,
      height: 9,
      crown_base: 2,
      crown_radius: 3,
    },
    geometry: { type: "Point", coordinates: [-139.5, 44.25] },
  };
  await drop(page, [[`${hostile}.geojson`, JSON.stringify({ type: "FeatureCollection", features: [tree] })]]);
  await page.getByLabel(/^Layer of/).selectOption("trees");
  await page.getByRole("button", { name: "Make the plan" }).click();
  await drawn(page);
  await page.locator("tree-list [role=option]").first().click();
  await page.locator("boughline-tree-card").getByRole("heading", { level: 2 }).waitFor();
  expect(await page.evaluate(() => "__pwned" in window)).toBe(false);
  expectQuiet();
  await close();
});
