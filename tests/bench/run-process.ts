import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import path from "node:path";

/** What a run took. User and system time add up all threads. */
export interface Usage {
  readonly wallMs: number;
  readonly userMs: number;
  readonly systemMs: number;
  /** Most memory resident at once; null where it was not a process of its own. */
  readonly residentMB: number | null;
}

const ROOT = path.join(import.meta.dirname, "../..");

/** Runs a TypeScript program of the checkout as a process of its own and measures it. Rejects when it fails. */
export async function runProcess(folder: string, program: string, args: readonly string[]): Promise<Usage> {
  const usageFile = path.join(folder, "usage.json");
  const preload = path.join(ROOT, "tests/bench/report-usage.ts");
  const started = performance.now();
  await new Promise<void>((resolve, reject) => {
    const child = spawn(process.execPath, ["--import", "tsx", "--import", preload, path.join(ROOT, program), ...args], {
      cwd: ROOT,
      env: { ...process.env, BENCH_USAGE: usageFile },
      stdio: ["ignore", "ignore", "inherit"],
    });
    child.on("error", reject);
    child.on("exit", (code) => (code === 0 ? resolve() : reject(new Error(`${program} ended with ${code}`))));
  });
  const wallMs = performance.now() - started;
  return { wallMs, ...(JSON.parse(readFileSync(usageFile, "utf8")) as Omit<Usage, "wallMs">) };
}

/** Measures a piece of work in this process; `work` returns its checksum, which is looked at outside the clock. */
export async function measure(
  work: () => number | Promise<number>,
): Promise<{ readonly usage: Usage; readonly checksum: number }> {
  const started = performance.now();
  const before = process.cpuUsage();
  const checksum = await work();
  const { user, system } = process.cpuUsage(before);
  const wallMs = performance.now() - started;
  return { usage: { wallMs, userMs: user / 1000, systemMs: system / 1000, residentMB: null }, checksum };
}
