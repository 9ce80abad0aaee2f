import { twoTabRuns, withoutLocks } from "../../browser/keep/two-tab-runs.ts";
import type { FaultRow } from "../fault-row.ts";
import { inBrowser, missingBrowser } from "./in-browser.ts";

/** Two tabs edit one plan in turn, and the one that has it is closed again and again; once more in a browser without locks. */
export const twoTabs: FaultRow = {
  id: "b3",
  what: "two tabs on one plan: one may change it, the other takes over; no edit lost or doubled",
  isLong: true,
  missing: missingBrowser,
  run: ({ isShort, seed, onProgress }) =>
    inBrowser(async (address, profile) => {
      const edits = isShort ? 20 : 200;
      const locked = await twoTabRuns(await profile(), address, { edits, seed, onProgress });
      const old = await twoTabRuns(await profile(), address, { edits, seed, before: withoutLocks, onProgress });
      const wrong = [...locked.wrong, ...old.wrong];
      const inWords = (what: string, { tried, refused, takenOver, kept }: typeof locked) =>
        `${what} ${tried} edits tried, ${refused} refused, ${takenOver} taken over, ${kept} kept`;
      return {
        counts: `${inWords("with locks", locked)}; ${inWords("without", old)}; ${wrong.length} wrong`,
        isHeld: wrong.length === 0,
        remarks: wrong,
      };
    }),
};
