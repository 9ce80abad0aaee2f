// Loaded before a run of the command and, as threads take over its arguments, before each of its threads: lets threads crash at a task, in the way that
// BOUGHLINE_CRASH names (throw, exit, memory, loop), as often as there are marks to take: one thread takes BOUGHLINE_CRASH_MARK-0, the next -1, and so on.
import { closeSync, openSync } from "node:fs";
import { parentPort } from "node:worker_threads";

const {
  BOUGHLINE_CRASH: way,
  BOUGHLINE_CRASH_MARK: mark,
  BOUGHLINE_CRASHES: crashes,
  BOUGHLINE_CRASH_AT: at,
} = process.env;

const WAYS = {
  throw: () => {
    throw new Error("a thread was made to throw");
  },
  exit: () => process.exit(7),
  memory: () => {
    const all = [];
    for (;;) all.push(Array.from({ length: 100_000 }, (_, number) => ({ number })));
  },
  loop: () => {
    for (;;);
  },
};

function takesMark() {
  for (let number = 0; number < Number(crashes); number += 1) {
    try {
      closeSync(openSync(`${mark}-${number}`, "wx"));
      return true;
    } catch {
      // Taken by another thread.
    }
  }
  return false;
}

if (parentPort !== null && way !== undefined) {
  const on = parentPort.on.bind(parentPort);
  parentPort.on = (event, listener) => {
    if (event !== "message") return on(event, listener);
    let tasks = 0;
    return on(event, (message) => {
      if (message.type === "hiders" || message.type === "encode" || message.type === "keep") {
        if (tasks === Number(at) && takesMark()) WAYS[way]();
        tasks += 1;
      }
      listener(message);
    });
  };
}
