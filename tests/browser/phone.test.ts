import { readFileSync } from "node:fs";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { loadFonts } from "../../src/cli/fonts.ts";
import { checkCompletion } from "../../src/core/plan/completion/check-completion.ts";
import type { Completion } from "../../src/core/plan/completion/completion.ts";
import { parseCompletion } from "../../src/core/plan/completion/parse-completion.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { buildPacket } from "../../src/formats/packet/build-packet.ts";
import { phoneHtml } from "../../src/formats/phone/phone-html.ts";
import { smallPlan, smallZone } from "../core/packet/small-plan.ts";
import { pageOf } from "../phone/phone-sample.ts";
import { accessFaults } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";
import { goTo, type OpenedPhone, openPhone, smallTargets } from "./phone-page.ts";

let browser: Browser;
let html: string;
let opened: OpenedPhone | null = null;

beforeAll(async () => {
  browser = await launchChromium();
  const packet = await buildPacket(smallPlan, smallZone, usCommon(), await loadFonts(), { paper: "letter" });
  html = new TextDecoder().decode(unzipSync(packet.bytes)["phone.html"]);
});

afterAll(async () => {
  await opened?.close();
  await browser?.close();
});

const kept = (page: Page) => page.locator("header .kept[data-kept=kept]").waitFor();
const choose = (page: Page, outcome: "done" | "partly" | "not-done") =>
  page.locator(`label[for=outcome-${outcome}]`).click();

async function exported(page: Page): Promise<Completion> {
  await goTo(page, "#report");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save completion file" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe("completion-z-0001-r3-2027-01-21.json");
  const result = parseCompletion(JSON.parse(readFileSync(await download.path(), "utf8")));
  if ("faults" in result) throw new Error(result.faults.join("\n"));
  return result.completion;
}

const SCREENS = [
  { width: 390, height: 844, theme: "light" },
  { width: 360, height: 640, theme: "dark" },
  { width: 1440, height: 900, theme: "light" },
] as const;

test.each(SCREENS)("every view has no access fault, no small target and fits $width px, $theme", async (screen) => {
  const { page, expectQuiet, close } = await openPhone(browser, html, screen);
  for (const hash of ["#trees", "#tree/1", "#tree/7", "#zone", "#report", "#map", "#map/2"]) {
    await goTo(page, hash);
    for (const summary of await page.locator("#sheet summary:visible").all()) await summary.click();
    expect(await accessFaults(page), hash).toEqual([]);
    expect(await smallTargets(page), hash).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), hash).toBeLessThanOrEqual(0);
  }
  expectQuiet();
  await close();
});

test("shows the closure's sketch with its figures, what is worn and where help is sent", async () => {
  const { page, expectQuiet, close } = await openPhone(browser, html);
  await goTo(page, "#zone");
  const sketch = page.getByRole("img", { name: "Sketch of one set-up" });
  await sketch.scrollIntoViewIfNeeded();
  const box = (await sketch.boundingBox())!;
  expect(box.width).toBeGreaterThan(300);
  expect(box.height).toBeGreaterThan(150);
  const smallest = await sketch.evaluate((svg) =>
    Math.min(...[...svg.querySelectorAll("text")].map((text) => text.getBoundingClientRect().height)),
  );
  // Letters of 2.3 mm in a drawing of 66 mm on a phone 390 px wide.
  expect(smallest).toBeGreaterThanOrEqual(12);
  const text = await page.locator("#sheet").textContent();
  for (const words of [
    "typical application TA-10",
    "confirm with the road authority",
    "2, each seen from 47 m",
    "helmet",
    "latitude, longitude 43.07",
  ]) {
    expect(text).toContain(words);
  }
  expectQuiet();
  await close();
});

describe("a day's work on a phone", () => {
  test("is still there after the page is closed and opened, and comes out as a completion", async () => {
    opened = await openPhone(browser, html);
    const { page } = opened;
    await page.locator("a[href='#tree/1']").click();
    await choose(page, "done");
    await page.getByLabel("New crown base").fill("15 ft 1 in");
    await page.getByText("Read as 4.6 m.").waitFor();
    await page.getByLabel("Live crown taken").fill("12");
    await page.getByLabel("Photo names").fill("IMG_0001.jpg");

    await page.getByRole("link", { name: /^Next: 2/ }).click();
    await choose(page, "partly");
    await page.getByLabel("Reason").selectOption({ label: "Vehicle in the way" });
    await page.getByLabel("Notes: what is left to do").fill("<b>North</b> limb");
    expect(await accessFaults(page)).toEqual([]);

    await goTo(page, "#tree/3");
    await choose(page, "not-done");
    await page.getByLabel("Reason").selectOption({ label: "Active nest" });

    await goTo(page, "#report");
    await page.getByLabel("Crew leader").fill("R. Alder");
    await page.getByLabel("Crew hours worked").fill("6,5");
    await page.getByRole("button", { name: "Add a tree" }).click();
    await page.getByLabel("Species, if known").fill("Acer rubrum");
    await page.getByRole("button", { name: "Point at it on the map" }).click();
    await page.getByRole("button", { name: "Use this place" }).click();
    await page.getByText(/^From the map: 43\.0/).waitFor();
    await page.getByRole("button", { name: "Add a hazard" }).click();
    await page.getByLabel("What is dangerous").fill("Hanger over the walk");
    expect(await accessFaults(page)).toEqual([]);
    await kept(page);

    await page.goto("about:blank");
    await page.goto(opened.address);
    await page.getByText("3 of 9 trees marked").waitFor();
    const states = await page.locator(".trees .state").allTextContents();
    expect(states.slice(0, 4)).toEqual(["Done", "Partly", "Not done", "Open"]);

    const completion = await exported(page);
    expect(completion).toMatchObject({
      planId: smallPlan.planId,
      revision: smallPlan.revision,
      zoneId: smallZone.zoneId,
      appVersion: "0.1.0",
      who: "R. Alder",
      crewHours: 6.5,
      // 15 ft 1 in = 181 in of 25.4 mm = 4.5974 m.
      visits: [
        {
          outcome: "done",
          reason: null,
          date: "2027-01-21",
          crownBaseM: 4.597,
          doseShare: 0.12,
          photos: ["IMG_0001.jpg"],
        },
        { outcome: "partly", reason: "vehicle-in-the-way", notes: "<b>North</b> limb" },
        { outcome: "not-done", reason: "nest" },
      ],
      addedTrees: [{ species: "Acer rubrum", place: { from: "map" } }],
      hazards: [{ notes: "Hanger over the walk", place: null }],
    });
    expect(completion.visits.map(({ visitId }) => visitId)).toEqual(smallZone.visitIds.slice(0, 3));
    expect(checkCompletion(completion, smallPlan).filter(({ severity }) => severity === "error")).toEqual([]);
    // The middle of the map lies within the zone's surroundings: 0.01 degrees are about a kilometer.
    const { place } = completion.addedTrees[0]!;
    expect(Math.abs(place!.latDeg - 43.07)).toBeLessThan(0.01);
    expect(Math.abs(place!.lonDeg + 89.5)).toBeLessThan(0.01);
    await page.getByText("Exported 21 Jan 2027, 09:30.").waitFor();
    opened.expectQuiet();
  });

  test("is taken back mark by mark", async () => {
    const { page } = opened!;
    await goTo(page, "#tree/2");
    await page.getByRole("button", { name: "Take this mark back" }).click();
    await page.getByLabel("Notes").first().fill("");
    await goTo(page, "#report");
    await page.getByRole("button", { name: "Remove" }).first().click();
    await kept(page);
    await page.reload();
    const completion = await exported(page);
    expect(completion.visits.map(({ outcome }) => outcome)).toEqual(["done", "not-done"]);
    expect(completion.addedTrees).toEqual([]);
    expect(completion.hazards).toHaveLength(1);
    opened!.expectQuiet();
  });
});

test("a tap is kept when the page is closed at once", async () => {
  const { page, address, expectQuiet, close } = await openPhone(browser, html);
  const context = page.context();
  for (const number of [1, 2, 3, 4, 5]) {
    const tab = await context.newPage();
    await tab.goto(`${address}#tree/${number}`);
    await tab.locator("label[for=outcome-done]").click();
    await tab.close();
  }
  await page.reload();
  await page.getByText("5 of 9 trees marked").waitFor();
  expectQuiet();
  await close();
});

test("an address of no tree shows the order of work", async () => {
  const { page, address, expectQuiet, close } = await openPhone(browser, html);
  for (const hash of ["#tree/99", "#tree/x", "#nothing"]) {
    await page.goto(`${address}${hash}`);
    await page.reload();
    await page.getByText("0 of 9 trees marked").waitFor();
    await page.getByRole("link", { name: "Report" }).waitFor();
  }
  expectQuiet();
  await close();
});

test("the keyboard alone marks a tree", async () => {
  const { page, expectQuiet, close } = await openPhone(browser, html);
  await page.locator("a[href='#tree/2']").focus();
  await page.keyboard.press("Enter");
  await page.locator("body[data-view=tree]").waitFor();
  // The heading has the focus, so that a screen reader begins there.
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H1");
  await page.locator("#outcome-done").focus();
  await page.keyboard.press("Space");
  expect(await page.locator("#outcome-done").isChecked()).toBe(true);
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("outcome-done");
  await page.keyboard.press("ArrowRight");
  await page.getByLabel("Reason").selectOption({ label: "Weather" });
  await kept(page);
  expect((await exported(page)).visits).toMatchObject([
    { treeId: smallZone.treeIds[1], outcome: "partly", reason: "weather" },
  ]);
  expectQuiet();
  await close();
});

test("the map is dragged, zoomed and tapped", async () => {
  const { page, expectQuiet, close } = await openPhone(browser, html);
  await goTo(page, "#map");
  const world = page.locator(".map-window svg > g").first();
  const transform = () => world.getAttribute("transform");
  const whole = await transform();
  await page.mouse.move(200, 400);
  await page.mouse.down();
  await page.mouse.move(260, 430, { steps: 4 });
  await page.mouse.up();
  const dragged = await transform();
  expect(dragged).not.toBe(whole);
  await page.getByRole("button", { name: "Zoom in" }).click();
  expect(await transform()).not.toBe(dragged);
  await page.locator(".map-window").focus();
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("-");
  await page.getByRole("button", { name: "Whole zone" }).click();
  expect(await transform()).toBe(whole);
  await page.locator(".map-window [data-number='1']").tap();
  await page.getByRole("link", { name: /^1 / }).click();
  await page.locator("body[data-view=tree]").waitFor();
  expect(await page.getByRole("heading", { level: 1 }).textContent()).not.toBe("");
  expectQuiet();
  await close();
});

test("a device that gives no position is told in a sentence, one that does in a place", async () => {
  const without = await openPhone(browser, html);
  await goTo(without.page, "#map");
  await without.page.getByRole("button", { name: "Where I am" }).click();
  await without.page.getByText(/The map works without it/).waitFor();
  without.expectQuiet();
  await without.close();

  const [lonDeg, latDeg] = [smallPlan.trees[0]!.lonDeg, smallPlan.trees[0]!.latDeg];
  const withOne = await openPhone(browser, html, {
    context: { permissions: ["geolocation"], geolocation: { longitude: lonDeg, latitude: latDeg, accuracy: 4 } },
  });
  await goTo(withOne.page, "#map");
  await withOne.page.getByRole("button", { name: "Where I am" }).click();
  await withOne.page.getByText("You are within 4.0 m of the dot. Nearest: tree 1, 0.0 m away.").waitFor();
  withOne.expectQuiet();
  await withOne.close();
});

test("where nothing can be kept it says so, goes on, warns before it is left, and exports", async () => {
  const { page, expectQuiet, close } = await openPhone(browser, html, {
    before: () => {
      const blocked = () => {
        throw new DOMException("blocked", "SecurityError");
      };
      Object.defineProperty(window, "localStorage", { get: blocked });
      Object.defineProperty(window, "indexedDB", { get: blocked });
    },
  });
  await page.getByText("Not kept on this device").waitFor();
  await page.getByText(/export before you leave it/).waitFor();
  await page.locator("a[href='#tree/1']").click();
  await choose(page, "done");
  expect((await exported(page)).visits).toMatchObject([{ outcome: "done" }]);
  const asked = new Promise<string>((resolve) => {
    page.on("dialog", (dialog) => {
      resolve(dialog.type());
      void dialog.accept();
    });
  });
  await page.reload();
  expect(await asked).toBe("beforeunload");
  expectQuiet();
  await close();
});

test("a full device never reads as kept", async () => {
  const { page, close } = await openPhone(browser, html, {
    before: () => {
      Storage.prototype.setItem = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    },
  });
  await page.getByText("Not kept on this device").waitFor();
  await page.locator("a[href='#tree/1']").click();
  await choose(page, "done");
  expect(await page.locator("header .kept").textContent()).toBe("Not kept on this device");
  await close();
});

test("a packet that is old, or older than another, says so", async () => {
  const { page, expectQuiet, close } = await openPhone(browser, html);
  await page.getByText("Revision 3, as of 15 Jan 2027").waitFor();
  expect(await page.locator(".warning").count()).toBe(0);
  await goTo(page, "#zone");
  await page.getByText("Its plan is 6 days old.").waitFor();
  const { planId } = smallPlan;
  const manifest = { format: "boughline-packet", planId, zoneId: smallZone.zoneId, revision: 4 };
  await page.setInputFiles("#manifest", {
    name: "m.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(manifest)),
  });
  await page.getByText(/That packet is newer: revision 4, this page is revision 3/).waitFor();
  await page.clock.setFixedTime(new Date("2027-03-01T08:00:00"));
  await goTo(page, "#trees");
  await page.getByText("This packet's plan is 45 days old.").waitFor();
  expectQuiet();
  await close();
});

test("texts of the plan stay texts", async () => {
  const hostile = '</script><img src=x onerror="globalThis.__pwned=1"><svg onload=globalThis.__pwned=1>{{7*7}}';
  const trees = smallPlan.trees.map((tree) => ({ ...tree, commonName: hostile, address: hostile, street: hostile }));
  const surroundings = smallPlan.surroundings.map((feature) => ({ ...feature, name: hostile }));
  const prescriptions = smallPlan.prescriptions.map((one) => ({
    ...one,
    cautions: [hostile],
    visits: one.visits.map((visit) => ({
      ...visit,
      tasks: visit.tasks.map((task) => ({ ...task, cause: hostile, where: hostile })),
    })),
  }));
  const zone = { ...smallZone, name: hostile, streets: [hostile], hazards: [hostile] };
  const page = pageOf({ ...smallPlan, trees, surroundings, prescriptions, planId: hostile }, zone);
  const view = await openPhone(browser, await phoneHtml(page));
  for (const hash of ["#trees", "#tree/1", "#tree/3", "#zone", "#report", "#map"]) {
    await goTo(view.page, hash);
    for (const summary of await view.page.locator("#sheet summary:visible").all()) await summary.click();
  }
  await goTo(view.page, "#tree/1");
  expect(await view.page.getByRole("heading", { level: 1 }).textContent()).toContain("<img src=x");
  expect(await view.page.locator("img, script:not([type]) ~ script, foreignObject").count()).toBe(0);
  expect(await view.page.evaluate(() => (globalThis as { __pwned?: number }).__pwned)).toBeUndefined();
  view.expectQuiet();
  await view.close();
});
