import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { filesBelow, isSameState, leftovers, seenBy } from "../folder-state.ts";
import { rowOf } from "./row.ts";
import { runChild } from "./run-child.ts";
import { withPlan } from "./with-plan.ts";

/** F15: a fault while recovering from a fault: a disk full and a kill while cleaning up, and locks that the dead left. */
export const faultOnFault = rowOf(
  "f15",
  "fault on top of a fault: disk full and killed while cleaning up; stale locks of dead processes",
  ["strace"],
  ({ work, isShort, onProgress }) =>
    withPlan(work, 30, async ({ plan, copy }) => {
      const wrong: string[] = [];
      const before = seenBy(plan);
      const argv = (dir: string): string[] => ["zone", dir];
      const golden = copy("golden");
      await runChild(argv(golden));
      const after = seenBy(golden);

      for (const [told, text] of Object.entries(locksOfTheDead(isShort))) {
        const dir = copy("locked");
        writeFileSync(join(dir, ".boughline.lock"), text);
        const { code, err } = await runChild(argv(dir));
        if (code !== 0) wrong.push(`lock of ${told}: exit ${code}, ${err.slice(0, 200)}`);
        judge(dir, after, `lock of ${told}`, wrong);
      }

      let faults = 0;
      for (let nth = 1; !isShort && nth <= 60; nth += 1) {
        let injected = false;
        for (const cleaning of [1, 2]) {
          const dir = copy("torn");
          const log = join(work, "strace.log");
          const around = [
            ...["strace", "-f", "-o", log, "-e", "trace=fsync,unlink,rmdir"],
            ...["-e", `inject=fsync:error=ENOSPC:when=${nth}+`],
            ...["-e", `inject=unlink,rmdir:signal=SIGKILL:when=${cleaning}`],
          ];
          await runChild(argv(dir), { before: around, env: { UV_THREADPOOL_SIZE: "1" } });
          injected = spawnSync("grep", ["-q", "ENOSPC", log]).status === 0;
          const run = `disk full from flush ${nth} on, killed at removal ${cleaning}`;
          const seen = seenBy(dir);
          if (!isSameState(seen, before) && !isSameState(seen, after))
            wrong.push(`${run}: neither the old plan nor the new`);
          faults += 1;
          onProgress(`${run}: ${wrong.length} wrong so far`);
          // A run without faults brings all in order.
          const { code, err } = await runChild(argv(dir));
          if (code !== 0) wrong.push(`${run}: the next run ends with ${code}, ${err.slice(0, 200)}`);
          else if (isSameState(seen, before)) judge(dir, after, run, wrong);
          else if (leftovers(filesBelow(dir)).length > 0) wrong.push(`${run}: the next run leaves something over`);
        }
        if (!injected) break;
      }
      return {
        figure: `${Object.keys(locksOfTheDead(isShort)).length} stale locks; ${faults} runs with two faults`,
        wrong,
      };
    }),
);

function judge(dir: string, after: ReadonlyMap<string, string>, run: string, wrong: string[]): void {
  const left = leftovers(filesBelow(dir));
  if (left.length > 0) wrong.push(`${run}: ${left.join(", ")} left over`);
  if (!isSameState(seenBy(dir), after)) wrong.push(`${run}: the next run does not bring what an undisturbed one does`);
}

/** Texts of locks that nobody alive holds. */
function locksOfTheDead(isShort: boolean): Record<string, string> {
  const dead = spawnSync(process.execPath, ["-e", ""]).pid;
  const lock = { pid: dead, host: hostname(), started: "1", token: "x" };
  const one = { "a dead process": JSON.stringify(lock) };
  if (isShort) return one;
  return {
    ...one,
    "a process whose number is used again": JSON.stringify({ ...lock, pid: process.pid }),
    "a lock cut short": JSON.stringify(lock).slice(0, 20),
    "an empty lock": "",
  };
}
