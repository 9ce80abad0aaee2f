import { join } from "node:path";
import { makeCity } from "../../bench/make-city.ts";
import { seenBy } from "../folder-state.ts";
import { rowOf } from "./row.ts";
import { runChild } from "./run-child.ts";
import { withPlan, wrongAfterFailure } from "./with-plan.ts";

/** Heap limits that are tried, in MB of Node's option. */
const HEAPS_MB = [64, 128, 256, 512];
/** Address spaces that are tried, in bytes; Node itself reserves several hundred MB. */
const SPACES = [600_000_000, 1_000_000_000, 2_000_000_000];
/** Ends of a run that ran out of memory: V8 gives up (134), the system ends it (137, 139, 133), or a fault that was told. */
const OUT_OF_MEMORY = new Set([3, 5, 70, 133, 134, 137, 139]);

/** F9: too little memory ends a run, or it is done; what was there is whole. */
export const outOfMemory = rowOf(
  "f9",
  "memory limits: done, or ended with the old plan whole",
  ["prlimit"],
  ({ work, isShort, onProgress }) =>
    withPlan(work, 30, async ({ plan, copy }) => {
      const wrong: string[] = [];
      const ends: string[] = [];
      const before = seenBy(plan);
      for (const trees of isShort ? [30, 5_000] : [30, 5_000, 100_000]) {
        const city = {
          trees: join(work, "trees.json"),
          buildings: join(work, "buildings.json"),
          roads: join(work, "roads.json"),
        };
        await makeCity(city, { trees, decimals: 7, seed: 1 });
        const layers = ["--trees", city.trees, "--buildings", city.buildings, "--roads", city.roads];
        const limits = [
          ...HEAPS_MB.map((mb) => ({ told: `heap ${mb} MB`, node: [`--max-old-space-size=${mb}`], before: [] })),
          ...(trees === 30 ? SPACES : []).map((bytes) => ({
            told: `address space ${bytes / 1e6} MB`,
            node: [],
            before: ["prlimit", `--as=${bytes}`],
          })),
        ].filter(({ told }) => trees < 100_000 || told === "heap 512 MB");
        for (const { told, ...limit } of limits) {
          const dir = copy("memory");
          const argv = ["enrich", ...layers, "--as-of", "2026-11-02", "--threads", "1", "--replace", "--out", dir];
          const { code, peakMB } = await runChild(argv, limit);
          const run = `${trees} trees, ${told}`;
          ends.push(`${run}: ${code === 0 ? `done with ${Math.round(peakMB)} MB` : `exit ${code}`}`);
          onProgress(ends.at(-1)!);
          if (code === 0) continue;
          if (!OUT_OF_MEMORY.has(code)) wrong.push(`${run}: exit ${code}`);
          if (told === "heap 512 MB") wrong.push(`${run}: not done`);
          const torn = wrongAfterFailure(dir, before, run);
          // A process that V8 ends cannot tidy up; the next run does.
          wrong.push(...torn.filter((sentence) => !sentence.endsWith("left over")));
        }
      }
      return { figure: ends.join("; "), wrong };
    }),
);
