import { rmSync } from "node:fs";
import { join } from "node:path";
import { randomFrom } from "../../fuzz/random.ts";
import type { FaultRow } from "../fault-row.ts";
import { filesBelow, isSameState, leftovers, seenBy } from "../folder-state.ts";
import { smallTown } from "../small-town.ts";
import { runChild, showsTrace } from "./run-child.ts";

const LONGEST_OFFSET_MS = 500;

/** F7: two runs into one folder. */
export const twoRuns: FaultRow = {
  id: "f7",
  what: "two runs into one folder, 0 to 500 ms apart: one plan whole, the other run exits 5 or comes after",
  missing: () => null,
  run: async ({ work, isShort, seed, onProgress }) => {
    const wrong: string[] = [];
    const below = randomFrom(seed);
    const town = smallTown(work, 8, []);
    const argvOf = (asOf: string, out: string): string[] => {
      return ["enrich", ...town, "--as-of", asOf, "--threads", "1", "--out", out];
    };
    const dates = ["2026-11-02", "2026-12-01"];
    const goldens = [];
    for (const asOf of dates) {
      const out = join(work, `golden-${asOf}`);
      await runChild(argvOf(asOf, out));
      goldens.push(seenBy(out));
    }
    const rounds = isShort ? 3 : 50;
    const won = [0, 0];
    for (let round = 0; round < rounds; round += 1) {
      const out = join(work, "plan");
      const offsetMs = below(LONGEST_OFFSET_MS + 1);
      const [first, second] = await Promise.all([
        runChild(argvOf(dates[0]!, out)),
        new Promise((done) => setTimeout(done, offsetMs)).then(() => runChild(argvOf(dates[1]!, out))),
      ]);
      const run = `round ${round}, ${offsetMs} ms apart`;
      const codes = [first.code, second.code].sort().join(" and ");
      if (codes !== "0 and 5")
        wrong.push(`${run}: exits ${codes}, ${first.err.slice(0, 150)} ${second.err.slice(0, 150)}`);
      if (showsTrace(first.err + second.err)) wrong.push(`${run}: a stack trace`);
      const winner = first.code === 0 ? 0 : 1;
      won[winner]! += 1;
      if (!isSameState(seenBy(out), goldens[winner]!)) wrong.push(`${run}: not the plan of the run that exits 0`);
      const left = leftovers(filesBelow(out));
      if (left.length > 0) wrong.push(`${run}: ${left.join(", ")} left over`);
      rmSync(out, { recursive: true, force: true });
      if (round % 10 === 9) onProgress(`${round + 1} rounds, ${wrong.length} wrong`);
    }
    return {
      counts: `${rounds} rounds: the first won ${won[0]}, the second ${won[1]}; the other exits 5, the plan is the winner's to the byte`,
      isHeld: wrong.length === 0,
      remarks: wrong,
    };
  },
};
