import { type SpawnOptions, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { constants } from "node:os";
import { fileURLToPath } from "node:url";
import { COMMAND } from "../command.ts";

const root = fileURLToPath(new URL("../../../", import.meta.url));

/** How a run of the command ended. */
export interface Ended {
  /** Exit code as a shell tells it: 128 + number of the signal for a process that a signal ended. */
  readonly code: number;
  readonly out: string;
  readonly err: string;
  readonly wallMs: number;
  /** Most memory resident at once, VmHWM of the process, in MB of 1,000,000 bytes; 0 when it ended before it was looked at. */
  readonly peakMB: number;
  /** Time of all processors, user and system together, in seconds, up to the last look. */
  readonly cpuS: number;
  /** From the signal sent until the end; null when none was sent. */
  readonly stoppedMs: number | null;
}

/** What goes around a run. */
export interface Around {
  /** Program and arguments in front of Node, for example `prlimit --as=...`. */
  readonly before?: readonly string[];
  /** Arguments of Node. */
  readonly node?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  /** Sent `afterMs` after the start. */
  readonly signal?: NodeJS.Signals;
  readonly afterMs?: number;
  /** The run is killed after this time, which counts as a fault of the row; default five minutes. */
  readonly limitMs?: number;
  readonly stdio?: SpawnOptions["stdio"];
  /** A script for bash that runs the command as `"$@"`. */
  readonly script?: string;
}

/** Runs the command as a process of its own and waits for its end. */
export function runChild(argv: readonly string[], around: Around = {}): Promise<Ended> {
  const command = [process.execPath, ...(around.node ?? []), ...COMMAND, ...argv];
  const scripted = around.script === undefined ? command : ["bash", "-c", around.script, "bash", ...command];
  const [program, ...rest] = [...(around.before ?? []), ...scripted] as [string, ...string[]];
  return new Promise((done, failed) => {
    const began = performance.now();
    const child = spawn(program, rest, {
      cwd: root,
      env: { ...process.env, ...around.env },
      stdio: around.stdio ?? ["ignore", "pipe", "pipe"],
    });
    let [out, err, peakMB, cpuS] = ["", "", 0, 0];
    let sentAt: number | null = null;
    child.stdout?.on("data", (part) => {
      out += part;
    });
    child.stderr?.on("data", (part) => {
      err += part;
    });
    const look = setInterval(() => {
      peakMB = Math.max(peakMB, residentMB(child.pid!));
      cpuS = Math.max(cpuS, processorS(child.pid!));
    }, 20);
    const limit = setTimeout(() => child.kill("SIGKILL"), around.limitMs ?? 300_000);
    const signal = around.signal;
    const send =
      signal === undefined
        ? null
        : setTimeout(() => {
            if (child.exitCode === null && child.kill(signal)) sentAt = performance.now();
          }, around.afterMs ?? 0);
    child.on("error", failed);
    child.on("close", (code, endedBy) => {
      clearInterval(look);
      clearTimeout(limit);
      if (send !== null) clearTimeout(send);
      const now = performance.now();
      done({
        code: code ?? 128 + constants.signals[endedBy!],
        out,
        err,
        wallMs: now - began,
        peakMB,
        cpuS,
        stoppedMs: sentAt === null ? null : now - sentAt,
      });
    });
  });
}

/** Whether a text shows a stack trace, of JavaScript or of tsx in front of it. */
export const showsTrace = (text: string): boolean => /^\s+at .+:\d+:\d+\)?$/m.test(text);

/** VmHWM of a process (proc manual, section 5) in MB; 0 once it is gone. */
function residentMB(pid: number): number {
  try {
    const line = /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, "utf8"));
    return line === null ? 0 : (Number(line[1]) * 1024) / 1e6;
  } catch {
    return 0;
  }
}

/** User and system time of a process, fields 14 and 15 of /proc/<pid>/stat in ticks of 10 ms (proc manual, section 5); 0 once it is gone. */
function processorS(pid: number): number {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
    return (Number(fields[11]) + Number(fields[12])) / 100;
  } catch {
    return 0;
  }
}
