import type { BrowserContext } from "playwright-core";
import { randomFrom } from "../../fuzz/random.ts";
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

/** Milliseconds within which a tab is closed after an edit, or after it was shown as saved. */
const WITHIN_MS = 50;
/** Edits made in one go before a tab is closed without waiting. */
const AT_ONCE = 3;

/**
 * Edits a plan, closes its tab 0 to 50 ms after, opens it again and reads what is kept; `waits` closes only once the edit is shown as saved. Moments come
 * from the seed; what the machine does in between does not.
 */
export async function closeRuns(
  context: BrowserContext,
  address: string,
  { runs, seed, waits, onProgress = () => {} }: RunOptions & { readonly waits: boolean },
): Promise<KeepAccount> {
  const below = randomFrom(seed);
  const complaints: string[] = [];
  await context.addInitScript(withoutMap);
  const witness = await watchSaved(context);
  const ledger = new KeepLedger(["start"]);
  let page = await keptPage(context, address, complaints);
  await openZip(page);
  await rename(page, "start");
  await saved(page, 1);
  for (let run = 1; run <= runs; run += 1) {
    witness.forget();
    const names = waits ? [`edit ${run}`] : Array.from({ length: AT_ONCE }, (_, at) => `edit ${run}.${at + 1}`);
    await renameAll(page, names);
    if (waits) await saved(page, ledger.kept.length + 1);
    // Playwright's own answer takes a few milliseconds on top.
    await new Promise((resolve) => setTimeout(resolve, below(WITHIN_MS + 1)));
    await page.close({ runBeforeUnload: false });
    const shown = Math.max(witness.edits, waits ? ledger.kept.length + 1 : 0);
    page = await keptPage(context, address, complaints);
    await goOnKept(page);
    ledger.take(names, shown, await editLabels(page), await zoneName(page));
    if (run % 10 === 0) onProgress(`${run} closed, ${ledger.account.wrong.length} wrong`);
  }
  await page.close();
  const { account } = ledger;
  return { ...account, wrong: [...account.wrong, ...complaints] };
}
