import type { BrowserContext, Page } from "playwright-core";
import { randomFrom } from "../../fuzz/random.ts";
import { KeepLedger } from "./keep-account.ts";
import {
  editLabels,
  goOnKept,
  type KeptApp,
  keptPage,
  openZip,
  PATIENT,
  rename,
  saved,
  withoutMap,
  zoneName,
} from "./kept-page.ts";
import { watchSaved } from "./saved-witness.ts";

/** What became of edits that two pages tried in turn. */
export interface TwoTabAccount {
  /** Edits tried, and those that the page that only looks refused. */
  readonly tried: number;
  readonly refused: number;
  /** How often the page that held the plan was closed, and the other took over. */
  readonly takenOver: number;
  /** Edits kept at the end. */
  readonly kept: number;
  readonly wrong: readonly string[];
}

export interface TwoTabOptions {
  readonly edits: number;
  readonly seed: number;
  /** Runs ahead of each page's own scripts. */
  readonly before?: (() => void) | undefined;
  readonly onProgress?: (soFar: string) => void;
}

/** Makes a page one of a browser that has no locks. */
export function withoutLocks(): void {
  Object.defineProperty(navigator, "locks", { value: undefined });
}

/** One in so many edits ends with the page that holds the plan being closed. */
const EDITS_PER_CLOSE = 8;

const isMine = (page: Page) =>
  page.evaluate(() => (document.querySelector("boughline-app") as KeptApp).desk.keep.canEdit);

/**
 * Two pages on one plan try edits in an order that comes from the seed; now and then the one that holds the plan is closed, every other time without
 * waiting for its last edit to be saved, and a new page comes beside the one that takes over. In the end the journal must be the accepted edits in order, each
 * once; only one that a page was closed on may be missing.
 */
export async function twoTabRuns(
  context: BrowserContext,
  address: string,
  { edits, seed, before, onProgress = () => {} }: TwoTabOptions,
): Promise<TwoTabAccount> {
  await context.addInitScript(withoutMap);
  const below = randomFrom(seed);
  const complaints: string[] = [];
  const wrong: string[] = [];
  const witness = await watchSaved(context);
  const ledger = new KeepLedger(["start"]);
  let made: string[] = [];
  let refused = 0;
  let takenOver = 0;
  const join = async () => {
    const page = await keptPage(context, address, complaints, before);
    await page.getByRole("button", { name: /^Go on with/ }).click(PATIENT);
    await page.getByText("Another tab has this plan. Here you can look, not change").waitFor(PATIENT);
    return page;
  };
  let holder = await keptPage(context, address, complaints, before);
  await openZip(holder);
  await rename(holder, "start");
  await saved(holder, 1);
  let looker = await join();
  for (let edit = 1; edit <= edits; edit += 1) {
    const name = `edit ${edit}`;
    if (below(2) === 0) {
      const seen = await zoneName(looker);
      await rename(looker, name);
      refused += 1;
      if ((await zoneName(looker)) !== seen) wrong.push(`${name} was made in a page that only looks`);
      continue;
    }
    await rename(holder, name);
    made.push(name);
    if (below(EDITS_PER_CLOSE) > 0) continue;
    const waits = takenOver % 2 === 0;
    if (waits) await saved(holder, ledger.kept.length + made.length);
    await holder.close({ runBeforeUnload: false });
    await looker.getByText("The other tab is closed.").waitFor(PATIENT);
    await looker.waitForFunction(
      () => (document.querySelector("boughline-app") as KeptApp).desk.keep.canEdit,
      undefined,
      PATIENT,
    );
    takenOver += 1;
    holder = looker;
    const shown = waits ? ledger.kept.length + made.length : witness.edits;
    ledger.take(made, shown, await editLabels(holder), await zoneName(holder));
    made = [];
    witness.forget();
    looker = await join();
    if (await isMine(looker)) wrong.push(`after ${name} two pages may change the plan`);
    onProgress(`${edit} tried, ${takenOver} taken over, ${wrong.length + ledger.account.wrong.length} wrong`);
  }
  const all = ledger.kept.length + made.length;
  await saved(holder, all);
  await looker.close();
  await holder.close();
  const last = await keptPage(context, address, complaints, before);
  await goOnKept(last);
  ledger.take(made, all, await editLabels(last), await zoneName(last));
  await last.close();
  const found = [...wrong, ...ledger.account.wrong, ...complaints];
  return { tried: edits, refused, takenOver, kept: ledger.kept.length, wrong: found };
}
