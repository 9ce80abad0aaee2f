import { killBrowserRuns } from "../../browser/keep/kill-browser-runs.ts";
import type { FaultRow } from "../fault-row.ts";
import { inBrowser, missingBrowser } from "./in-browser.ts";

/** The page's process crashes, or every process of the browser is killed, within 50 ms of an edit. */
export const killedBrowser: FaultRow = {
  id: "b2",
  what: "page crashed, whole browser killed: what was shown as saved is there, the rest whole or not at all",
  isLong: true,
  missing: missingBrowser,
  run: ({ isShort, seed, onProgress }) =>
    inBrowser(async (address) => {
      const runs = isShort ? 4 : 50;
      const page = await killBrowserRuns("page", address, { runs, seed, onProgress });
      const browser = await killBrowserRuns("browser", address, { runs, seed, onProgress });
      const wrong = [...page.wrong, ...browser.wrong];
      const inWords = (what: string, { runs, made, shown, beyond }: typeof page) =>
        `${what} ${runs} times (${made} edits, ${shown} shown as saved before, ${beyond} more kept)`;
      return {
        counts: `${inWords("page crashed", page)}, ${inWords("browser killed", browser)}; ${wrong.length} wrong`,
        isHeld: wrong.length === 0,
        remarks: wrong,
      };
    }),
};
