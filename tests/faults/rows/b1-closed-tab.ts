import { closeRuns } from "../../browser/keep/close-runs.ts";
import type { FaultRow } from "../fault-row.ts";
import { inBrowser, missingBrowser } from "./in-browser.ts";

/** Tabs of the page are closed within 50 ms of an edit, and of its being shown as saved. */
export const closedTab: FaultRow = {
  id: "b1",
  what: "tab closed in the middle of an edit: what was shown as saved is there, the rest whole or not at all",
  isLong: true,
  missing: missingBrowser,
  run: ({ isShort, seed, onProgress }) =>
    inBrowser(async (address, profile) => {
      const runs = isShort ? 4 : 100;
      const waited = await closeRuns(await profile(), address, { runs, seed, waits: true, onProgress });
      const hasty = await closeRuns(await profile(), address, { runs, seed, waits: false, onProgress });
      const wrong = [...waited.wrong, ...hasty.wrong];
      return {
        counts: `${waited.runs} closed after "saved", ${hasty.runs} without waiting (${hasty.made} edits, ${hasty.shown} shown as saved before, ${hasty.beyond} more kept); ${wrong.length} wrong`,
        isHeld: wrong.length === 0,
        remarks: wrong,
      };
    }),
};
