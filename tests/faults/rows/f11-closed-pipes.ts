import { smallTown } from "../small-town.ts";
import { rowOf } from "./row.ts";
import { runChild, showsTrace } from "./run-child.ts";
import { withPlan } from "./with-plan.ts";

/** What happens to the streams, as a script of bash around the command, and how the run may end. */
const WAYS: readonly { readonly told: string; readonly script: string; readonly ends: readonly number[] }[] = [
  { told: "reader takes one byte", script: 'set -o pipefail; "$@" | head -c 1 >/dev/null', ends: [0, 141] },
  { told: "reader is gone at once", script: 'set -o pipefail; "$@" | true', ends: [0, 141] },
  { told: "stderr closed", script: '"$@" 2>&-', ends: [0] },
  { told: "stdout closed", script: '"$@" >&-', ends: [0, 5] },
  { told: "stdin, stdout and stderr closed", script: '"$@" <&- >&- 2>&-', ends: [0, 5] },
  { told: "stdout on a full disk", script: '"$@" >/dev/full', ends: [5] },
];

/** F11: a reader that goes away and streams that are closed end a run in order, without a stack trace. */
export const closedPipes = rowOf(
  "f11",
  "closed streams: no stack trace, exit 0 or 141",
  ["bash"],
  async ({ work, isShort }) => {
    const judge = async ({ plan, town }: { plan: string | null; town: readonly string[] }) => {
      const wrong: string[] = [];
      let runs = 0;
      for (const argv of [
        ["check", ...town.slice(0, town.indexOf("--as-of")), "--json"],
        ...(plan === null ? [] : [["record", plan, "--checks"]]),
      ]) {
        for (const { told, script, ends } of WAYS.slice(0, isShort ? 1 : WAYS.length)) {
          const { code, out, err } = await runChild(argv, { script });
          runs += 1;
          if (!ends.includes(code)) wrong.push(`${argv[0]}, ${told}: exit ${code}, ${err.slice(0, 200)}`);
          if (showsTrace(out + err)) wrong.push(`${argv[0]}, ${told}: a stack trace`);
        }
      }
      return { figure: `${runs} runs`, wrong };
    };
    return isShort
      ? await judge({ plan: null, town: smallTown(work, 60, ["roads"]) })
      : await withPlan(work, 60, judge);
  },
);
