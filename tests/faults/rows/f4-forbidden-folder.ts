import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import type { FaultRow } from "../fault-row.ts";
import { smallTown } from "../small-town.ts";
import { type Around, runChild, showsTrace } from "./run-child.ts";

/** Trees of a run that would take far longer than the folder's refusal. */
const TREES = 1400;

/** F4: a folder that may not be written is found before anything is computed. */
export const forbiddenFolder: FaultRow = {
  id: "f4",
  what: "read-only disk, or a folder that this user may not write: exit 5 before computing, folder named, nothing written",
  missing: () =>
    process.getuid?.() === 0 && spawnSync("unshare", ["-m", "true"], { stdio: "ignore" }).status === 0
      ? null
      : "only root may mount and take another user's part",
  run: async ({ work }) => {
    const wrong: string[] = [];
    const town = smallTown(work, TREES, []);
    const bundle = process.env.BOUGHLINE_CLI;
    // The other user has to come to the folder and to the command.
    for (const folder of [work, ...(bundle === undefined ? [] : [dirname(bundle)])]) chmodSync(folder, 0o755);
    const asOther = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"];
    const started = await runChild(["--version"]);
    const times: number[] = [];
    const tried: string[] = [];
    const ways: Record<string, (folder: string) => Around> = {
      "read-only disk": (folder) => ({
        before: ["unshare", "-m"],
        script: `mount --bind ${folder} ${folder} && mount -o remount,ro,bind ${folder} || exit 99; exec "$@"`,
      }),
      "mode 555, another user": () => ({ before: asOther }),
    };
    for (const [told, around] of Object.entries(ways)) {
      for (const inside of ["", "plan", "a/b/plan"]) {
        const folder = join(work, `${told.slice(0, 4)}-${inside.replaceAll("/", "-")}`);
        mkdirSync(folder);
        chmodSync(folder, 0o555);
        const out = join(folder, inside);
        const argv = ["enrich", ...town, "--threads", "1", "--out", out];
        const { code, err, wallMs } = await runChild(argv, around(folder));
        const run = `${told}, --out ${inside === "" ? "the folder" : inside}`;
        tried.push(run);
        times.push(wallMs - started.wallMs);
        if (code !== 5) wrong.push(`${run}: exit ${code}, ${err.slice(0, 200)}`);
        if (!err.includes(folder) || err.trim().split("\n").length !== 1 || showsTrace(err))
          wrong.push(`${run}: the folder is not named in one line, but ${err.slice(0, 200)}`);
        if (readdirSync(folder).length > 0) wrong.push(`${run}: ${readdirSync(folder).join(", ")} left`);
        if (/Measuring|Reading/.test(err)) wrong.push(`${run}: computed first`);
      }
    }
    return {
      counts: `${tried.length} runs; slowest ${Math.round(Math.max(...times))} ms longer than a start alone (${Math.round(started.wallMs)} ms)`,
      isHeld: wrong.length === 0,
      remarks: wrong,
    };
  },
};
