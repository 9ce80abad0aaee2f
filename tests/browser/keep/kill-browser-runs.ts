import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { randomFrom } from "../../fuzz/random.ts";
import { CHROMIUM_FLAGS, chromiumPath } from "../chromium.ts";
import { browserProcesses } from "./browser-processes.ts";
import { type KeepAccount, KeepLedger, type RunOptions } from "./keep-account.ts";
import {
  editLabels,
  goOnKept,
  keptPage,
  openZip,
  rename,
  renameAll,
  saved,
  withoutMap,
  zoneName,
} from "./kept-page.ts";
import { watchSaved } from "./saved-witness.ts";

/** Milliseconds within which the fault comes after an edit, or after it was shown as saved. */
const WITHIN_MS = 50;

/** `page` crashes the page's own process; `browser` kills every process of the browser with SIGKILL. */
export type KillKind = "page" | "browser";

/**
 * Edits a plan and kills the page or the whole browser 0 to 50 ms after; every other time only once the edit is shown as saved. Starts again on the same
 * profile and reads what is kept. The machine itself goes on, so this says nothing of a power cut.
 */
export async function killBrowserRuns(
  kind: KillKind,
  address: string,
  { runs, seed, onProgress = () => {} }: RunOptions,
): Promise<KeepAccount> {
  const below = randomFrom(seed);
  const complaints: string[] = [];
  const profile = mkdtempSync(join(tmpdir(), "boughline-profile-"));
  const launch = async () => {
    const context = await chromium.launchPersistentContext(profile, {
      executablePath: chromiumPath(),
      args: [...CHROMIUM_FLAGS],
      reducedMotion: "reduce",
      serviceWorkers: "block",
    });
    await context.addInitScript(withoutMap);
    return context;
  };
  let context = await launch();
  try {
    let witness = await watchSaved(context);
    const ledger = new KeepLedger(["start"]);
    let page = await keptPage(context, address, complaints);
    await openZip(page);
    await rename(page, "start");
    await saved(page, 1);
    for (let run = 1; run <= runs; run += 1) {
      witness.forget();
      const waits = run % 2 === 1;
      const names = waits ? [`edit ${run}`] : [1, 2, 3].map((at) => `edit ${run}.${at}`);
      await renameAll(page, names);
      if (waits) await saved(page, ledger.kept.length + 1);
      await new Promise((resolve) => setTimeout(resolve, below(WITHIN_MS + 1)));
      if (kind === "page") await crash(context, page);
      else await kill(context, profile);
      const shown = Math.max(witness.edits, waits ? ledger.kept.length + 1 : 0);
      if (kind === "browser") {
        context = await launch();
        witness = await watchSaved(context);
      }
      page = await keptPage(context, address, complaints);
      await goOnKept(page);
      ledger.take(names, shown, await editLabels(page), await zoneName(page));
      if (run % 10 === 0) onProgress(`${run} killed, ${ledger.account.wrong.length} wrong`);
    }
    const { account } = ledger;
    return { ...account, wrong: [...account.wrong, ...complaints] };
  } finally {
    await context.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function crash(context: BrowserContext, page: Page): Promise<void> {
  const gone = page.waitForEvent("crash");
  const devtools = await context.newCDPSession(page);
  // The command never answers: the page it goes to is gone.
  devtools.send("Page.crash").catch(() => {});
  await gone;
  await page.close();
}

async function kill(context: BrowserContext, profile: string): Promise<void> {
  const gone = context.waitForEvent("close");
  const processes = browserProcesses(profile);
  if (processes.length < 3)
    throw new Error(`Expected a browser, its page and more; found ${processes.length} processes`);
  for (const id of processes) {
    try {
      process.kill(id, "SIGKILL");
    } catch {
      // It went with its parent.
    }
  }
  await gone;
}
