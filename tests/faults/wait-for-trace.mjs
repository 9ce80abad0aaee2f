// Waits until every thread of this process is traced, then runs the command (first argument: its program): faults are counted from here on, not from the
// many calls with which Node starts.
import { readdirSync, readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const isTraced = (task) => !/^TracerPid:\s+0$/m.test(readFileSync(`/proc/self/task/${task}/status`, "utf8"));
const until = Date.now() + 60_000;
while (!readdirSync("/proc/self/task").every(isTraced)) {
  if (Date.now() > until) throw new Error("Expected to be traced within a minute");
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 2);
}
process.argv.splice(1, 1);
await import(pathToFileURL(process.argv[1]).href);
