import { mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { FaultRow } from "../fault-row.ts";
import { filesBelow, isSameState, leftovers } from "../folder-state.ts";
import { smallTown } from "../small-town.ts";
import { runChild } from "./run-child.ts";

interface Case {
  readonly told: string;
  /** Prepares what is there; gives the path for `--out`. */
  readonly prepare: (home: string) => string;
  readonly code: 0 | 5;
}

const file = (path: string, text = "foreign\n"): string => {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  return path;
};

const CASES: readonly Case[] = [
  { told: "foreign files", code: 0, prepare: (home) => dirname(file(join(home, "plan/notes.txt"))) },
  { told: "a foreign folder", code: 0, prepare: (home) => dirname(dirname(file(join(home, "plan/photos/a.txt")))) },
  {
    told: "leftovers of a dead run",
    code: 0,
    prepare: (home) => {
      file(join(home, "plan/.boughline-1-aa"));
      file(join(home, "plan/revisions/.boughline-1-bb/plan.json"));
      file(join(home, "plan/.boughline.lock"), '{"pid":');
      return join(home, "plan");
    },
  },
  { told: "a file", code: 5, prepare: (home) => file(join(home, "plan")) },
  { told: "a path through a file", code: 5, prepare: (home) => join(file(join(home, "plan")), "below") },
  { told: "a foreign file named current", code: 5, prepare: (home) => dirname(file(join(home, "plan/current"))) },
  { told: "a foreign file named revisions", code: 5, prepare: (home) => dirname(file(join(home, "plan/revisions"))) },
  {
    told: "a foreign folder named history.jsonl",
    code: 5,
    prepare: (home) => dirname(dirname(file(join(home, "plan/history.jsonl/a")))),
  },
  {
    told: "a link to a folder",
    code: 5,
    prepare: (home) => {
      mkdirSync(join(home, "real"));
      symlinkSync(join(home, "real"), join(home, "plan"));
      return join(home, "plan");
    },
  },
  {
    told: "a link that leads nowhere",
    code: 5,
    prepare: (home) => {
      symlinkSync(join(home, "nowhere"), join(home, "plan"));
      return join(home, "plan");
    },
  },
  { told: "the folder of the inputs", code: 5, prepare: (home) => join(home, "inputs") },
  { told: "the folder above the inputs", code: 5, prepare: (home) => home },
  {
    told: "the inputs' folder by a link",
    code: 5,
    prepare: (home) => {
      symlinkSync(join(home, "inputs"), join(home, "way"));
      return join(home, "way");
    },
  },
  {
    told: "the inputs' folder by a link above it",
    code: 5,
    prepare: (home) => {
      symlinkSync(home, join(home, "up"));
      return join(home, "up/inputs");
    },
  },
];

/** F6: what is in the folder, or in its place, that is not a plan's. */
export const foreignFiles: FaultRow = {
  id: "f6",
  what: "leftovers, foreign files, or a file, a link or the inputs' folder as --out: inputs and foreign files unchanged",
  missing: () => null,
  run: async ({ work, isShort }) => {
    const wrong: string[] = [];
    let unchanged = 0;
    const cases = isShort ? CASES.filter((_, at) => at % 4 === 2 || at === 0) : CASES;
    for (const [at, { told, code, prepare }] of cases.entries()) {
      const home = join(work, `case-${at}`);
      mkdirSync(join(home, "inputs"), { recursive: true });
      const town = smallTown(join(home, "inputs"), 8, []);
      const out = prepare(home);
      const before = filesBelow(home);
      const ended = await runChild(["enrich", ...town, "--threads", "1", "--out", out]);
      const after = filesBelow(home);
      if (ended.code !== code) wrong.push(`${told}: exit ${ended.code}, ${ended.err.slice(0, 200)}`);
      if (code === 5 && !isSameState(before, after)) wrong.push(`${told}: something changed`);
      if (code === 5 && !ended.err.includes(out)) wrong.push(`${told}: not named, but ${ended.err.slice(0, 200)}`);
      if (code === 0 && leftovers(after).length > 0) wrong.push(`${told}: leaves ${leftovers(after).join(", ")}`);
      const kept = [...before].filter(([path]) => !path.includes("/.boughline"));
      const changed = kept.filter(([path, digest]) => after.get(path) !== digest);
      unchanged += kept.length - changed.length;
      for (const [path] of changed) wrong.push(`${told}: ${path} is not as it was`);
    }
    return {
      counts: `${cases.length} prepared folders, ${unchanged} inputs and foreign files unchanged`,
      isHeld: wrong.length === 0,
      remarks: wrong,
    };
  },
};
