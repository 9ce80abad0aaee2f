import { cpSync, rmSync } from "node:fs";
import { join } from "node:path";
import { filesBelow, isSameState, leftovers, seenBy } from "../folder-state.ts";
import { smallTown } from "../small-town.ts";
import { runChild } from "./run-child.ts";

/** A small plan with zones in a folder of its own, to be copied and put through faults. */
export interface Ready {
  readonly plan: string;
  /** Arguments of `enrich` that made it, `--out` left out. */
  readonly town: readonly string[];
  /** A fresh copy of the plan. */
  readonly copy: (name: string) => string;
}

/** Makes a plan of the sample town's first trees in a folder, and does something with it. */
export async function withPlan<T>(folder: string, trees: number, use: (ready: Ready) => Promise<T>): Promise<T> {
  const plan = join(folder, "plan");
  const town = smallTown(folder, trees, ["roads", "paths"]);
  for (const argv of [
    ["enrich", ...town, "--threads", "1", "--out", plan],
    ["zone", plan],
  ]) {
    const { code, err } = await runChild(argv);
    if (code !== 0) throw new Error(`${argv[0]} ended with ${code}: ${err.slice(0, 400)}`);
  }
  const copy = (name: string): string => {
    const to = join(folder, name);
    rmSync(to, { recursive: true, force: true });
    cpSync(plan, to, { recursive: true, verbatimSymlinks: true });
    return to;
  };
  return await use({ plan, town, copy });
}

/** What is wrong with a plan folder after a run that failed: its reader must see what it saw before, and nothing unfinished may be left. */
export function wrongAfterFailure(dir: string, before: ReadonlyMap<string, string>, run: string): string[] {
  const left = leftovers(filesBelow(dir));
  return [
    ...(isSameState(seenBy(dir), before) ? [] : [`${run}: the old plan is not whole`]),
    ...(left.length === 0 ? [] : [`${run}: ${left.join(", ")} left over`]),
  ];
}
