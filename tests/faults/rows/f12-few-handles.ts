import { seenBy } from "../folder-state.ts";
import { rowOf } from "./row.ts";
import { runChild, showsTrace } from "./run-child.ts";
import { withPlan, wrongAfterFailure } from "./with-plan.ts";

/** Most open files that a process may have; below about 20 Node itself does not start. */
const HANDLES = [20, 22, 24, 26, 28, 32, 48];

/** F12: with too few file handles a run is done, or ends with one line and the old plan whole. */
export const fewHandles = rowOf(
  "f12",
  "too few file handles: done, or one line and the old plan whole",
  ["bash"],
  ({ work, onProgress }) =>
    withPlan(work, 30, async ({ plan, town, copy }) => {
      const wrong: string[] = [];
      const ends: string[] = [];
      const before = seenBy(plan);
      for (const handles of HANDLES) {
        const dir = copy("handles");
        const argv = ["enrich", ...town, "--replace", "--out", dir];
        const { code, err } = await runChild(argv, { script: `ulimit -n ${handles}; exec "$@"` });
        const run = `${handles} handles`;
        ends.push(`${run}: exit ${code}`);
        onProgress(ends.at(-1)!);
        if (code === 0) continue;
        // Before our first line runs Node or its loader may tell of it in their own words.
        const isOurs = !/node:internal|tsx|esbuild/.test(err);
        if (isOurs && (showsTrace(err) || ![3, 5].includes(code)))
          wrong.push(`${run}: exit ${code}, ${err.slice(0, 300)}`);
        wrong.push(...wrongAfterFailure(dir, before, run));
      }
      return { figure: ends.join("; "), wrong };
    }),
);
