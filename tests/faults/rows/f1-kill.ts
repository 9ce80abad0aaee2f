import { faultLoop, WRITING } from "../fault-loop.ts";
import type { FaultRow } from "../fault-row.ts";
import { killRuns } from "../kill-runs.ts";
import { tracingMissing } from "../traced-run.ts";

/** Kills at random moments, for each of two commands. */
const KILLS = 100;

/** F1: killed while it writes, at each call of the system and at random moments. */
export const kill: FaultRow = {
  id: "f1",
  what: "kill -9 at each call by which enrich, record and packet write, and at random moments: whole old plan or whole new",
  missing: tracingMissing,
  run: async (options) => {
    const tally = await faultLoop(
      [
        {
          calls: options.isShort ? ["fsync", "rename"] : WRITING,
          fault: "signal=SIGKILL",
          isForEver: false,
          ends: null,
        },
      ],
      options,
    );
    const wrong = [...tally.wrong];
    const random: string[] = [];
    for (const command of options.isShort ? [] : (["record", "packet"] as const)) {
      const killed = await killRuns(command, KILLS, options.seed, (so) => {
        if (so.kills % 20 === 0) options.onProgress(`${command}: ${so.kills} random kills, ${so.torn.length} torn`);
      });
      random.push(`${killed.kills - killed.late} of ${killed.kills} ${command} runs killed at random`);
      wrong.push(...killed.torn);
    }
    const counts = [
      `${tally.faults} kills at calls: ${tally.old} left the old state, ${tally.new} the new, ${tally.torn} torn; ${tally.again} second runs`,
      ...random,
    ].join("; ");
    return { counts, isHeld: wrong.length === 0 && tally.faults > 0, remarks: wrong };
  },
};
