import { cpSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { FaultOptions } from "./fault-row.ts";
import { filesBelow, isSameState, leftovers, seenBy } from "./folder-state.ts";
import { reportOfZone, zonesOf } from "./report-of-zone.ts";
import { runChild, showsTrace } from "./rows/run-child.ts";
import { withPlan } from "./rows/with-plan.ts";
import { momentsIn, tracedRun } from "./traced-run.ts";

/** What is set at which calls. */
export interface LoopOf {
  readonly calls: readonly string[];
  /** strace's fault: `signal=SIGKILL` or `error=ENOSPC`. */
  readonly fault: string;
  /** Whether all later calls of the name fail too. */
  readonly isForEver: boolean;
  /** Ends that are right where a call on the plan folder or an input failed; null for a run that is killed. */
  readonly ends: readonly number[] | null;
}

/** Calls by which a run writes. */
export const WRITING = ["openat", "write", "pwrite64", "fsync", "rename", "mkdir", "symlink", "unlink", "ftruncate"];

const TREES = 8;
/** Faults a command gets in the short form: the first, the last and some between. */
const SHORT = 3;

interface Tally {
  faults: number;
  old: number;
  new: number;
  again: number;
  torn: number;
  readonly wrong: string[];
}

/**
 * Sets a fault at each call that has to do with the plan folder or an input, one after another, each on a fresh copy of one plan that `enrich --replace`,
 * `record` or `packet` works on. A reader must then see the old state or the new, whole; a second run without a fault must bring the state of a run that
 * never had one, with nothing left over.
 */
export async function faultLoop(loops: readonly LoopOf[], { work, isShort, onProgress }: FaultOptions) {
  const tally: Tally = { faults: 0, old: 0, new: 0, again: 0, torn: 0, wrong: [] };
  await withPlan(work, TREES, async ({ plan, town, copy }) => {
    const report = join(work, "report.json");
    writeFileSync(report, JSON.stringify(reportOfZone(plan, zonesOf(plan)[0]!)));
    const commands: Record<string, (dir: string) => string[]> = {
      enrich: (dir) => ["enrich", ...town, "--as-of", "2026-12-01", "--threads", "1", "--replace", "--out", dir],
      record: (dir) => ["record", dir, report],
      packet: (dir) => ["packet", dir],
    };
    const before = seenBy(plan);
    for (const [command, argv] of Object.entries(commands).slice(0, isShort ? 1 : 3)) {
      const golden = copy(`golden-${command}`);
      const undisturbed = await runChild(argv(golden));
      if (undisturbed.code !== 0) throw new Error(`${command} ended with ${undisturbed.code}: ${undisturbed.err}`);
      const after = seenBy(golden);
      const jobs: (() => Promise<void>)[] = [];
      const names = [...new Set(loops.flatMap(({ calls }) => calls))].join(",");
      const dry = await tracedRun(argv(copy(`dry-${command}`)), names, null, join(work, "dry.log"));
      for (const loop of loops) {
        for (const call of loop.calls) {
          const moments = momentsIn(dry.calls, call, work);
          const some = isShort ? moments.filter((_, at) => at % Math.ceil(moments.length / SHORT) === 0) : moments;
          for (const moment of isShort && call !== "rename" && call !== "fsync" ? some.slice(0, 1) : some) {
            jobs.push(async () => {
              const run = `${command}, ${loop.fault} at ${call} ${moment}${loop.isForEver ? " and all later" : ""}`;
              const target = join(work, `run-${command}-${call}-${moment}`);
              await one({ run, loop, call, moment, target, plan, argv, before, after, isPacket: command === "packet" });
              rmSync(target, { recursive: true, force: true });
            });
          }
        }
      }
      await both(jobs, () =>
        onProgress(`${command}: ${tally.faults} faults, ${tally.torn} torn, ${tally.wrong.length} wrong`),
      );
    }
  });
  return tally;

  async function one(job: Job): Promise<void> {
    const { run, loop, call, moment, target, argv, before, after, isPacket } = job;
    cpSync(job.plan, target, { recursive: true, verbatimSymlinks: true });
    const inject = `${loop.fault}:when=${moment}${loop.isForEver ? "+" : ""}`;
    const { code, err, hit } = await tracedRun(argv(target), call, inject, `${target}.log`);
    const isKilled = loop.ends === null && code === 137;
    if (hit === null && !isKilled) return;
    tally.faults += 1;
    const state = seenBy(target);
    const [isOld, isNew] = [isSameState(state, before), isSameState(state, after)];
    if (isNew) tally.new += 1;
    else tally.old += 1;
    if (!isOld && !isNew && !(isPacket && isPartOf(state, after))) {
      tally.torn += 1;
      tally.wrong.push(`${run}: neither the old state nor the new`);
    }
    // A descriptor of the system's own (its wake-up calls) is no disk: only what is left is judged.
    const isOnDisk = hit?.includes(work) === true;
    if (loop.ends !== null && isOnDisk) {
      const isRight = loop.ends.includes(code) || (code === 0 && isNew);
      if (!isRight) tally.wrong.push(`${run}: exit ${code}${isNew ? " with the new state" : ""}, ${err.slice(0, 200)}`);
      if (showsTrace(err)) tally.wrong.push(`${run}: a stack trace`);
    }
    if (tally.faults % (isShort ? 4 : 3) !== 0) return;
    tally.again += 1;
    const again = await runChild(argv(target));
    const left = leftovers(filesBelow(target));
    if (again.code !== 0) tally.wrong.push(`${run}: a second run ends with ${again.code}, ${again.err.slice(0, 200)}`);
    if (left.length > 0) tally.wrong.push(`${run}: a second run leaves ${left.join(", ")}`);
    // A run that replaces makes one revision more where the first had come through.
    if ((isOld || isPacket) && again.code === 0 && !isSameState(seenBy(target), after))
      tally.wrong.push(`${run}: a second run does not bring the state of an undisturbed one`);
  }
}

interface Job {
  readonly run: string;
  readonly loop: LoopOf;
  readonly call: string;
  readonly moment: number;
  readonly target: string;
  readonly plan: string;
  readonly argv: (dir: string) => string[];
  readonly before: ReadonlyMap<string, string>;
  readonly after: ReadonlyMap<string, string>;
  readonly isPacket: boolean;
}

/** Packets are written one by one into a revision that stands: each is absent or whole. */
function isPartOf(state: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): boolean {
  return [...state].every(
    ([path, digest]) => after.get(path) === digest || path.split("/").some((part) => part.startsWith(".boughline")),
  );
}

/** Does jobs two at a time. */
async function both(jobs: readonly (() => Promise<void>)[], onTenth: () => void): Promise<void> {
  let next = 0;
  const hand = async (): Promise<void> => {
    while (next < jobs.length) {
      const at = next;
      next += 1;
      await jobs[at]!();
      if (at % 10 === 0) onTenth();
    }
  };
  await Promise.all([hand(), hand()]);
}
