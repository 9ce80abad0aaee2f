import { mkdirSync } from "node:fs";
import type { Server } from "node:http";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Files, townPlan } from "../formats/plan/recorded-town.ts";
import { accessFaults, drawn, drop, openApp, SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";

let browser: Browser;
let server: Server;
let address: string;
let town: Files;
/** Where pictures are laid for a person to look at; none are made without it. */
const PICTURES = process.env.BOUGHLINE_PICTURES;

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
  town = await townPlan(40);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
});

interface Line {
  readonly tree: { readonly id: string };
  readonly prescription: {
    readonly visits: readonly object[];
    readonly chosen: number | null;
    readonly options: readonly { readonly ruledOutBy: string | null; readonly doseShare: number }[];
  };
}

/** A tree with a visit and an option that a limit rules out. */
function treeToDecide(): string {
  const lines = new TextDecoder().decode(town.get("prescriptions.jsonl")).trim().split("\n");
  const line = lines
    .map((text) => JSON.parse(text) as Line)
    .find(
      ({ prescription: { visits, options, chosen } }) =>
        visits.length > 0 &&
        options.some(({ ruledOutBy }, at) => at !== chosen && ruledOutBy?.startsWith("takes") === true),
    );
  return line!.tree.id;
}

describe.each([SCREENS[0], SCREENS[2]])("the arborist's word, on a $name", (screen) => {
  test("another option is chosen beyond its limit, marked, listed, and taken back", async () => {
    const { page, expectQuiet, close } = await openApp(browser, address, screen);
    const picture = async (name: string): Promise<void> => {
      if (PICTURES === undefined) return;
      mkdirSync(PICTURES, { recursive: true });
      await page.screenshot({ path: `${PICTURES}/${name}-${screen.width}.png` });
    };
    const id = treeToDecide();
    await drop(
      page,
      [...town].map(([name, bytes]) => [name, bytes] as const),
    );
    await drawn(page);
    const search = page.locator("search-field").getByRole("combobox");
    await search.fill(id);
    await page.locator("search-field").getByRole("option", { name: id }).first().click();
    await page.locator("boughline-tree-card").waitFor();
    await page.getByRole("button", { name: "Decide", exact: true }).click();
    const sheet = page.locator("decide-sheet");
    await sheet
      .getByText(/Breaks a limit: takes/)
      .first()
      .waitFor();
    expect(await accessFaults(page)).toEqual([]);
    const decide = sheet.getByRole("button", { name: "Decide", exact: true });
    expect(await decide.isDisabled()).toBe(true);
    await sheet.locator("label.option", { hasText: "Breaks a limit: takes" }).first().getByRole("radio").check();
    await sheet.getByLabel("Why").fill("the owner agreed; tips would be torn by trucks");
    await sheet.getByLabel("Who").fill("R. Alder");
    await picture("decide");
    await decide.click();
    await page.getByText(/Decided\. Breaks a limit: takes/).waitFor({ timeout: 60_000 });
    const card = page.locator("boughline-tree-card");
    await card
      .getByText(/Arborist's word, R. Alder/)
      .first()
      .waitFor();
    await picture("card");
    expect(await accessFaults(page)).toEqual([]);

    await page.locator(".notice").getByRole("button", { name: "Close" }).click();
    await page.getByRole("button", { name: /^Back/ }).first().click();
    await page.getByRole("button", { name: "Decisions", exact: true }).click();
    const list = page.locator("words-sheet");
    await list.getByText(/Chosen:/).waitFor();
    await picture("decisions");
    await list.getByRole("button", { name: `Take back what is said of ${id}` }).click();
    await list.getByLabel("Who takes it back").fill("B. Birch");
    expect(await accessFaults(page)).toEqual([]);
    await list.getByRole("button", { name: "Take back", exact: true }).click();
    await page.getByText(/Taken back; the tree is as it was before/).waitFor({ timeout: 60_000 });
    await list.getByText("Nothing is decided.").waitFor();
    expectQuiet();
    await close();
  }, 180_000);
});
