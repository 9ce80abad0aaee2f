import type { Browser, BrowserContext, Page } from "playwright-core";
import { randomFrom } from "../../fuzz/random.ts";
import { drop } from "../app-page.ts";
import { crewReport } from "./crew-report.ts";
import { type KeptBytes, keptBytes } from "./kept-bytes.ts";
import { goOnKept, type KeptApp, keptPage, openZip, PATIENT, rename, saved, withoutMap } from "./kept-page.ts";

/** Where the taking of a report is broken off: as its file is dropped, while it is shown, or after the reader said to record it. */
export const STEPS = ["dropped", "shown", "recording"] as const;
export type Step = (typeof STEPS)[number];

/** What became of a plan whose recording was broken off again and again. */
export interface BrokenOffAccount {
  readonly runs: number;
  /** Runs that left the plan as it was before, and as it is after a recording that is not broken off. */
  readonly before: number;
  readonly after: number;
  readonly wrong: readonly string[];
}

/** Visits that the report holds, all of the plan. */
const VISITS = 4;

/**
 * Takes a crew's report into a kept plan with one edit and closes the tab at each step in turn, then compares what is kept with the states before and after,
 * bit by bit. While it records, the moment comes from the seed, within a little more than the time that a whole recording takes.
 */
export async function brokenOffRuns(
  browser: Browser,
  address: string,
  {
    runs,
    seed,
    onProgress = () => {},
  }: { readonly runs: number; readonly seed: number; readonly onProgress?: (soFar: string) => void },
): Promise<BrokenOffAccount> {
  const below = randomFrom(seed);
  const complaints: string[] = [];
  const wrong: string[] = [];
  const counted = { before: 0, after: 0 };
  const whole = await beginning(browser, address, complaints);
  const before = await keptBytes(whole.page);
  await look(whole.page);
  const began = Date.now();
  await record(whole.page);
  await taken(whole.page);
  const recordingMs = Date.now() - began;
  const after = await keptBytes(whole.page);
  await whole.context.close();
  if (same(before, after)) wrong.push("a recording that is not broken off changed nothing");
  for (let run = 0; run < runs; run += 1) {
    // Most of what can go wrong can go wrong while it records.
    const step = run % 5 < 2 ? STEPS[run % 5]! : "recording";
    const { context, page } = await beginning(browser, address, complaints);
    if (step === "dropped") await dropReport(page);
    else await look(page);
    if (step === "recording") await record(page);
    const waitedMs = step === "shown" ? 0 : below(Math.ceil(recordingMs * 1.2));
    await new Promise((resolve) => setTimeout(resolve, waitedMs));
    await page.close({ runBeforeUnload: false });
    const again = await keptPage(context, address, complaints);
    const found = await keptBytes(again);
    const is = same(found, before) ? "before" : same(found, after) ? "after" : null;
    if (is === null) wrong.push(`run ${run + 1}, ${step}, ${waitedMs} ms: ${JSON.stringify(found)}`);
    else counted[is] += 1;
    if (is === "after" && step !== "recording") wrong.push(`run ${run + 1}: recorded although nobody said so`);
    await goOnKept(again);
    const revision = await revisionOf(again);
    if (is !== null && revision !== (is === "before" ? 1 : 2))
      wrong.push(`run ${run + 1}: opened as revision ${revision}`);
    await context.close();
    onProgress(`${run + 1} broken off, ${counted.before} before, ${counted.after} after, ${wrong.length} wrong`);
  }
  return { runs, ...counted, wrong: [...wrong, ...complaints] };
}

/** A profile of its own with the plan kept in it, and one edit. */
async function beginning(
  browser: Browser,
  address: string,
  complaints: string[],
): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ reducedMotion: "reduce", serviceWorkers: "block" });
  await context.addInitScript(withoutMap);
  const page = await keptPage(context, address, complaints);
  await openZip(page);
  await rename(page, "start");
  await saved(page, 1);
  return { context, page };
}

const dropReport = (page: Page) => drop(page, [["alder.json", JSON.stringify(crewReport(VISITS))]]);

const recordButton = (page: Page) =>
  page.locator("record-sheet").getByRole("button", { name: `Record ${VISITS} visits` });

async function look(page: Page): Promise<void> {
  await dropReport(page);
  await recordButton(page).waitFor(PATIENT);
}

const record = (page: Page) => recordButton(page).click(PATIENT);

const revisionOf = (page: Page) =>
  page.evaluate(() => (document.querySelector("boughline-app") as KeptApp).hand?.opened.plan.revision);

/** Waits until the recorded revision is kept. */
async function taken(page: Page): Promise<void> {
  await page.waitForFunction(
    () => {
      const { hand, desk } = document.querySelector("boughline-app") as KeptApp;
      return hand?.opened.plan.revision === 2 && desk.keep.state.is === "kept";
    },
    undefined,
    PATIENT,
  );
}

const same = (one: KeptBytes, other: KeptBytes): boolean => JSON.stringify(one) === JSON.stringify(other);
