import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { FaultRow } from "../fault-row.ts";
import { filesBelow, isSameState, leftovers, seenBy } from "../folder-state.ts";
import { smallTown } from "../small-town.ts";
import { runChild, showsTrace } from "./run-child.ts";

const HOOK = fileURLToPath(new URL("../crash-threads.mjs", import.meta.url));
const WAYS = ["throw", "exit", "memory", "loop"] as const;
/** More than a part holds, so that two threads have work. */
const TREES = 1040;
/** Two threads given up one after the other at a part of 1000 trees: 72 s each. */
const LONGEST_HANG_MS = 150_000;
/** So small that a thread is out of memory soon. */
const HEAP = "--max-old-space-size=200";

/** F8: threads that throw, end, run out of memory or hang. */
export const threadCrash: FaultRow = {
  id: "f8",
  what: "a thread throws, ends, runs out of memory or hangs: done by another, to the same bytes; twice: exit 70, old plan whole",
  missing: () => null,
  run: async ({ work, isShort, onProgress }) => {
    const wrong: string[] = [];
    const town = [...smallTown(work, TREES, []), "--threads", "2"];
    const [golden, dir] = [join(work, "golden"), join(work, "plan")];
    const undisturbed = await runChild(["enrich", ...town, "--out", golden]);
    if (undisturbed.code !== 0) throw new Error(undisturbed.err);
    const whole = seenBy(golden);
    let [once, twice, longestMs] = [0, 0, 0];
    for (const way of isShort ? (["exit"] as const) : WAYS) {
      for (const crashes of [99, 1]) {
        for (const at of [0]) {
          const run = `${way}, ${crashes === 1 ? "one thread" : "every thread"}, at its task ${at + 1}`;
          const mark = join(work, `mark-${way}-${crashes}-${at}`);
          const env = {
            BOUGHLINE_CRASH: way,
            BOUGHLINE_CRASH_MARK: mark,
            BOUGHLINE_CRASHES: String(crashes),
            BOUGHLINE_CRASH_AT: String(at),
          };
          const isFirst = crashes !== 1;
          const argv = [
            "enrich",
            ...town,
            ...(isFirst ? ["--replace", "--out", golden] : ["--out", `${dir}-${way}-${at}`]),
          ];
          const { code, err, wallMs } = await runChild(argv, { node: [HEAP, "--import", HOOK], env });
          onProgress(`${run}: exit ${code} after ${Math.round(wallMs)} ms`);
          if (showsTrace(err)) wrong.push(`${run}: a stack trace`);
          const wasHit = filesBelow(work).has(`mark-${way}-${crashes}-${at}-0`);
          if (!wasHit) continue;
          longestMs = Math.max(longestMs, wallMs - undisturbed.wallMs);
          if (isFirst && code === 70) {
            twice += 1;
            if (!/Part \d+ of the trees \(.+ to .+\) ended two threads/.test(err))
              wrong.push(`${run}: what failed is not named, but ${err.slice(0, 300)}`);
            if (!isSameState(seenBy(golden), whole)) wrong.push(`${run}: the old plan is not whole`);
            if (leftovers(filesBelow(golden)).length > 0) wrong.push(`${run}: something is left over`);
          } else if (!isFirst && code === 0) {
            once += 1;
            if (!isSameState(seenBy(`${dir}-${way}-${at}`), whole))
              wrong.push(`${run}: other bytes than without a crash`);
          } else {
            wrong.push(`${run}: exit ${code}, ${err.slice(0, 300)}`);
          }
        }
      }
    }
    if (longestMs > LONGEST_HANG_MS) wrong.push(`A run took ${Math.round(longestMs)} ms longer than without a crash`);
    return {
      counts: `${once} runs in which one thread crashed gave the same bytes, ${twice} in which every thread did ended with 70; longest ${(longestMs / 1000).toFixed(1)} s more than without`,
      isHeld: wrong.length === 0 && once > 0 && twice > 0,
      remarks: wrong,
    };
  },
};
