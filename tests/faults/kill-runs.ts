import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { randomFrom } from "../fuzz/random.ts";
import { COMMAND } from "./command.ts";
import { filesBelow, isSameState, leftovers, seenBy } from "./folder-state.ts";
import { reportOfZone, zonesOf } from "./report-of-zone.ts";
import { smallTown } from "./small-town.ts";

/** What killing a command at random moments while it writes came to. */
export interface KillResult {
  readonly kills: number;
  /** Runs that were killed before they changed what a reader sees, and after. */
  readonly old: number;
  readonly new: number;
  /** Runs that had ended before they were killed. */
  readonly late: number;
  /** What was found torn, a sentence each; empty when all is well. */
  readonly torn: readonly string[];
}

const root = fileURLToPath(new URL("../../", import.meta.url));

/**
 * Kills `boughline record` or `boughline packet` with SIGKILL at random moments after it has begun to write, each time on a fresh copy of one plan, and
 * checks that a reader sees the old state or the new one, whole. Of every tenth copy a second run must bring the state that a run without a kill has,
 * with nothing left over. Moments come from the seed; what the machine does in between does not.
 */
export async function killRuns(
  command: "record" | "packet",
  kills: number,
  seed: number,
  onRun: (so: KillResult) => void = () => {},
): Promise<KillResult> {
  const work = mkdtempSync(join(tmpdir(), "boughline-kills-"));
  try {
    const below = randomFrom(seed);
    const random = (): number => below(1_000_000) / 1_000_000;
    const plan = join(work, "plan");
    await run("enrich", ...smallTown(work, 30, ["roads", "paths"]), "--out", plan);
    await run("zone", plan);
    const report = join(work, "report.json");
    writeFileSync(report, JSON.stringify(reportOfZone(plan, zonesOf(plan)[0]!)));
    const argv = (dir: string): string[] => (command === "record" ? ["record", dir, report] : ["packet", dir]);

    const golden = join(work, "golden");
    cpSync(plan, golden, { recursive: true, verbatimSymlinks: true });
    const began = Date.now();
    const writingMs = await run(...argv(golden)).then(() => Date.now() - began);
    const before = seenBy(plan);
    const after = seenBy(golden);
    const history = filesBelow(golden).get("history.jsonl");
    const result = { kills: 0, old: 0, new: 0, late: 0, torn: [] as string[] };
    for (let at = 0; at < kills; at += 1) {
      const dir = join(work, `copy-${at}`);
      cpSync(plan, dir, { recursive: true, verbatimSymlinks: true });
      // Most moments lie in the short time of writing, some in all the time from the lock on.
      const delayMs = random() < 0.8 ? random() * 300 : random() * Math.min(writingMs, 4000);
      const isKilled = await runAndKill(argv(dir), dir, command, delayMs);
      result.kills += 1;
      if (!isKilled) result.late += 1;
      const state = seenBy(dir);
      if (command === "record") judgeRecord(state, before, after, at, result);
      else judgePackets(state, before, after, at, result);
      if (at % 10 === 0) {
        await run(...argv(dir));
        const all = filesBelow(dir);
        if (!isSameState(seenBy(dir), after))
          result.torn.push(`Run ${at}: a second run does not bring the state of an undisturbed one`);
        if (command === "record" && leftovers(all).length > 0) {
          result.torn.push(`Run ${at}: a second run leaves ${leftovers(all).join(", ")}`);
        }
        if (all.get("history.jsonl") !== history)
          result.torn.push(`Run ${at}: the history tells of more than happened`);
      }
      rmSync(dir, { recursive: true, force: true });
      onRun(result);
    }
    return result;
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

type Count = { old: number; new: number; torn: string[] };
type State = ReadonlyMap<string, string>;

function judgeRecord(state: State, before: State, after: State, at: number, result: Count): void {
  if (isSameState(state, before)) result.old += 1;
  else if (isSameState(state, after)) result.new += 1;
  else result.torn.push(`Run ${at}: the plan is neither the old one nor the new one`);
}

/** Packets are written one by one: each is not there, or whole. */
function judgePackets(state: State, before: State, after: State, at: number, result: Count): void {
  const isAll = [...after.keys()].every((path) => state.has(path));
  for (const [path, digest] of state) {
    const isWhole = before.get(path) === digest || after.get(path) === digest;
    const isUnfinished = path.split("/").some((part) => part.startsWith(".boughline"));
    if (!isWhole && !isUnfinished) result.torn.push(`Run ${at}: ${path} is neither missing nor whole`);
  }
  if (isAll) result.new += 1;
  else result.old += 1;
}

function run(...argv: string[]): Promise<void> {
  return new Promise((done, failed) => {
    const child = spawn(process.execPath, [...COMMAND, ...argv], { cwd: root, stdio: ["ignore", "ignore", "pipe"] });
    let told = "";
    child.stderr.on("data", (part) => {
      told += part;
    });
    child.on("exit", (code) =>
      code === 0 ? done() : failed(new Error(`${argv[0]} ended with ${code}: ${told.slice(0, 400)}`)),
    );
  });
}

/** Starts a run, waits until it begins to write, and kills it some time later; false when it had ended by itself. */
function runAndKill(argv: readonly string[], dir: string, command: string, delayMs: number): Promise<boolean> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [...COMMAND, ...argv], { cwd: root, stdio: "ignore" });
    let isKilled = false;
    let isSeen = false;
    const look = setInterval(() => {
      if (isSeen || !hasBegun(dir, command)) return;
      isSeen = true;
      setTimeout(() => {
        isKilled = child.exitCode === null && child.kill("SIGKILL");
      }, delayMs);
    }, 2);
    child.on("exit", () => {
      clearInterval(look);
      done(isKilled);
    });
  });
}

/** Whether a run has taken the folder's lock, or begun its first packet. */
function hasBegun(dir: string, command: string): boolean {
  if (command === "record")
    return (
      existsSync(join(dir, "revisions")) &&
      readdirSync(join(dir, "revisions")).some((name) => name.startsWith(".boughline-"))
    );
  const packets = join(dir, "current/packets");
  return existsSync(packets) && readdirSync(packets).length > 0;
}
