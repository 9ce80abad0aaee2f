import { spawn, spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { constants } from "node:os";
import { fileURLToPath } from "node:url";
import { COMMAND } from "./command.ts";

const WAIT = fileURLToPath(new URL("wait-for-trace.mjs", import.meta.url));

/** How a run ended in which system calls were told or failed. */
export interface TracedRun {
  /** As a shell tells it. */
  readonly code: number;
  readonly err: string;
  /** The calls, a line each as strace writes them, with the paths of descriptors. */
  readonly calls: readonly string[];
  /** The first call that was made to fail or to be the last; null when none was. */
  readonly hit: string | null;
}

/** Why no system call can be made to fail here, or null. */
export function tracingMissing(): string | null {
  if (COMMAND.length !== 1) return "the command runs from its source, with threads of its own to translate it";
  const tried = spawnSync("strace", ["-f", "-e", "trace=none", "true"], { stdio: "ignore" });
  return tried.status === 0 ? null : "strace is not installed, or may not trace";
}

/**
 * Runs the command with the calls of one name traced (or several, with commas between); `inject` is strace's fault, as `signal=SIGKILL:when=3`. One thread of the pool makes the calls of
 * asynchronous writing, so that they come in one order.
 */
export async function tracedRun(
  argv: readonly string[],
  calls: string,
  inject: string | null,
  log: string,
): Promise<TracedRun> {
  const child = spawn(process.execPath, [WAIT, ...COMMAND, ...argv], {
    env: { ...process.env, UV_THREADPOOL_SIZE: "1" },
    stdio: ["ignore", "ignore", "pipe"],
  });
  let err = "";
  child.stderr.on("data", (part) => {
    err += part;
  });
  const ended = new Promise<number>((done) =>
    child.on("close", (code, signal) => done(code ?? 128 + constants.signals[signal!])),
  );
  const fault = inject === null ? [] : ["-e", `inject=${calls}:${inject}`];
  const tracer = spawn("strace", ["-f", "-y", "-o", log, "-e", `trace=${calls}`, ...fault, "-p", String(child.pid)], {
    stdio: "ignore",
  });
  const traced = new Promise<void>((done) => tracer.on("close", () => done()));
  const limit = setTimeout(() => child.kill("SIGKILL"), 120_000);
  const code = await ended;
  clearTimeout(limit);
  await traced;
  const lines = readFileSync(log, "utf8").split("\n");
  rmSync(log, { force: true });
  const hit = lines.find((line) => line.includes("INJECTED")) ?? null;
  return { code, err, calls: lines, hit };
}

/** Numbers, counted by thread from 1, of the calls of one name that have to do with a folder: the moments at which a fault is worth setting. */
export function momentsIn(calls: readonly string[], name: string, folder: string): number[] {
  const counts = new Map<string, number>();
  const moments = new Set<number>();
  for (const line of calls) {
    const [, thread, call] = /^(\d+)\s+(\w+)\(/.exec(line) ?? [];
    if (thread === undefined || call !== name) continue;
    const count = (counts.get(thread) ?? 0) + 1;
    counts.set(thread, count);
    if (line.includes(folder)) moments.add(count);
  }
  return [...moments].sort((a, b) => a - b);
}
