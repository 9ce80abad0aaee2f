import { constants } from "node:os";
import { randomFrom } from "../../fuzz/random.ts";
import { seenBy } from "../folder-state.ts";
import { rowOf } from "./row.ts";
import { runChild } from "./run-child.ts";
import { withPlan, wrongAfterFailure } from "./with-plan.ts";

const SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
const LONGEST_STOP_MS = 2000;

/** F10: a run that is told to stop does so at once, with the old plan whole and nothing left over. */
export const signals = rowOf(
  "f10",
  "signals at random moments: stopped within 2 s, old plan whole, nothing left over",
  [],
  ({ work, isShort, seed, onProgress }) =>
    withPlan(work, isShort ? 60 : 300, async ({ plan, town, copy }) => {
      const wrong: string[] = [];
      const before = seenBy(plan);
      const below = randomFrom(seed);
      const commands = {
        enrich: (dir: string) => ["enrich", ...town, "--replace", "--out", dir],
        zone: (dir: string) => ["zone", dir],
        packet: (dir: string) => ["packet", dir],
      };
      let [stopped, late, longestMs] = [0, 0, 0];
      for (const [name, argv] of Object.entries(commands).slice(0, isShort ? 1 : 3)) {
        const undisturbed = await runChild(argv(copy("undisturbed")));
        for (let at = 0; at < (isShort ? 1 : 17); at += 1) {
          const dir = copy("stopped");
          const signal = SIGNALS[at % SIGNALS.length]!;
          const afterMs = below(Math.max(1, Math.round(undisturbed.wallMs * 0.95)));
          const { code, stoppedMs, err } = await runChild(argv(dir), { signal, afterMs });
          const run = `${name}, ${signal} after ${afterMs} ms`;
          if (code === 0) {
            late += 1;
            continue;
          }
          stopped += 1;
          onProgress(`${stopped} stopped, ${late} late, slowest ${Math.round(longestMs)} ms, ${wrong.length} wrong`);
          longestMs = Math.max(longestMs, stoppedMs ?? 0);
          if (code !== 128 + constants.signals[signal]) wrong.push(`${run}: exit ${code}, ${err.slice(0, 200)}`);
          // The test command judges no times: a busy machine would fail it.
          if (!isShort && (stoppedMs ?? 0) > LONGEST_STOP_MS)
            wrong.push(`${run}: stopped only after ${Math.round(stoppedMs!)} ms`);
          // Packets are written one by one into the current revision: what is there is whole, and unfinished ones are gone.
          const torn = wrongAfterFailure(dir, before, run);
          wrong.push(...(name === "packet" ? torn.filter((sentence) => sentence.endsWith("left over")) : torn));
        }
      }
      return {
        figure: `${stopped} runs stopped at random moments, ${late} had ended before; the slowest stopped after ${Math.round(longestMs)} ms`,
        wrong,
      };
    }),
);
