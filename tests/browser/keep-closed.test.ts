import type { Server } from "node:http";
import type { Browser, BrowserContext } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { SCREENS, serveApp } from "./app-page.ts";
import { launchChromium } from "./chromium.ts";
import { closeRuns } from "./keep/close-runs.ts";
import { killBrowserRuns } from "./keep/kill-browser-runs.ts";

// The full counts are those of `npm run faults`; these few show that the rows still hold.
let browser: Browser;
let server: Server;
let address: string;
let context: BrowserContext;

beforeAll(async () => {
  ({ server, address } = await serveApp());
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

beforeEach(async () => {
  context = await browser.newContext({ viewport: SCREENS[0], reducedMotion: "reduce", serviceWorkers: "block" });
});

afterEach(() => context.close());

describe("a tab that is closed in the middle of an edit", () => {
  test("what it showed as saved is there", async () => {
    const account = await closeRuns(context, address, { runs: 4, seed: 1, waits: true });
    expect(account.wrong).toEqual([]);
    expect(account).toMatchObject({ runs: 4, made: 4, shown: 4 });
  });

  test("closed without waiting, each edit is there whole or not at all, and none was shown as saved that is not there", async () => {
    const account = await closeRuns(context, address, { runs: 4, seed: 2, waits: false });
    expect(account.wrong).toEqual([]);
    expect(account).toMatchObject({ runs: 4, made: 12 });
  });
});

describe.each(["page", "browser"] as const)("a %s that is killed in the middle of an edit", (kind) => {
  test("what it showed as saved is there", async () => {
    const account = await killBrowserRuns(kind, address, { runs: 4, seed: 3 });
    expect(account.wrong).toEqual([]);
    expect(account.runs).toBe(4);
    // Every other run waits until its edit is shown as saved.
    expect(account.shown).toBeGreaterThanOrEqual(2);
  });
});
