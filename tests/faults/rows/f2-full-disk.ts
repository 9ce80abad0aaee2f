import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { faultLoop } from "../fault-loop.ts";
import type { FaultRow } from "../fault-row.ts";
import { smallTown } from "../small-town.ts";
import { tracingMissing } from "../traced-run.ts";
import { runChild, showsTrace } from "./run-child.ts";

/** Sizes of a disk in memory that are tried until a run succeeds, kB. */
const SIZES_KB = [16, 64, 128, 256, 512, 1024, 4096, 16_384];
const ONCE = ["openat", "write", "fsync", "rename", "mkdir", "symlink"];
/** From then on all calls fail; not `write`, by which threads also wake each other up. */
const FOR_EVER = ["openat", "fsync", "rename", "mkdir"];

const mountMissing = (): string | null =>
  spawnSync("unshare", ["-m", "mount", "-t", "tmpfs", "tmpfs", "/mnt"], { stdio: "ignore" }).status === 0
    ? null
    : "this user may not mount";

/** F2: the disk is full, at each call and on disks that are too small. */
export const fullDisk: FaultRow = {
  id: "f2",
  what: "disk full, at one call or from one on, and on small disks: exit 5, folder and bytes named, old plan whole",
  missing: () => tracingMissing() ?? mountMissing(),
  run: async (options) => {
    const loop = { fault: "error=ENOSPC", ends: [5] };
    const tally = await faultLoop(
      options.isShort
        ? [{ ...loop, calls: ["fsync", "rename"], isForEver: true }]
        : [
            { ...loop, calls: ONCE, isForEver: false },
            { ...loop, calls: FOR_EVER, isForEver: true },
          ],
      options,
    );
    const small = await smallDisks(options.work, options.isShort);
    const wrong = [...tally.wrong, ...small.wrong];
    return {
      counts: `${tally.faults} full disks at calls: ${tally.old} left the old state, ${tally.new} the new, ${tally.torn} torn; disks too small: ${small.full.join(", ")} kB, the first that does: ${small.enough ?? "none"} kB`,
      isHeld: wrong.length === 0 && tally.faults > 0,
      remarks: wrong,
    };
  },
};

async function smallDisks(work: string, isShort: boolean) {
  const wrong: string[] = [];
  const full: number[] = [];
  const disk = join(work, "disk");
  const town = smallTown(work, 30, ["roads"]);
  for (const sizeKb of isShort ? [64, 16_384] : SIZES_KB) {
    // What is left is listed before the disk is gone with the run.
    const script = `mkdir -p ${disk} && mount -t tmpfs -o size=${sizeKb}k tmpfs ${disk} || exit 99; "$@"; code=$?; find ${disk} -mindepth 1 | sed 's/^/left: /'; exit $code`;
    const argv = ["enrich", ...town, "--threads", "1", "--out", join(disk, "plan")];
    const { code, out, err } = await runChild(argv, { before: ["unshare", "-m"], script });
    const run = `disk of ${sizeKb} kB`;
    if (code === 0) return { wrong, full, enough: sizeKb };
    full.push(sizeKb);
    if (code !== 5) wrong.push(`${run}: exit ${code}, ${err.slice(0, 200)}`);
    if (!/no space left; at least \d+ bytes are needed/.test(err) || !err.includes(join(disk, "plan")))
      wrong.push(`${run}: not told what is needed and where, but ${err.slice(0, 200)}`);
    if (showsTrace(err)) wrong.push(`${run}: a stack trace`);
    if (out.includes("left: ")) wrong.push(`${run}: left ${out.slice(0, 300)}`);
  }
  wrong.push("No disk was large enough");
  return { wrong, full, enough: null };
}
