import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { StartPartThread } from "../../formats/plan/part/part-thread.ts";
import { usageError } from "../exit-codes.ts";

/** Most threads where nobody asks for more: each holds a copy of what stands around the trees. Our policy. */
const MOST_THREADS = 8;

/** What `--threads` says to people. */
export const THREADS_HELP = `threads that plan the trees between them; the cores, at most ${MOST_THREADS}, when left out, 1 for none beside the main one`;

/** The number of threads asked for, or that this machine has. Throws CommandError for no whole number from 1. */
export function threadsOf(text: string | undefined): number {
  if (text === undefined) return Math.min(availableParallelism(), MOST_THREADS);
  const threads = Number(text);
  if (!Number.isInteger(threads) || threads < 1 || threads > 64 || text.trim() === "")
    throw usageError(`--threads takes a whole number from 1 to 64, got "${text.slice(0, 80)}".`);
  return threads;
}

/** Starts a thread of this process that plans parts. */
export const startThread: StartPartThread = (onAnswer, onDeath) => {
  const worker = new Worker(new URL("./part-thread.mjs", import.meta.url), { stdout: false, stderr: false });
  let isEnded = false;
  worker.on("message", onAnswer);
  worker.on("error", (error) => {
    if (!isEnded) onDeath(error.message);
  });
  worker.on("exit", (code) => {
    if (!isEnded) onDeath(`it ended with ${code}`);
  });
  return {
    post: (message) => worker.postMessage(message),
    end: () => {
      isEnded = true;
      void worker.terminate();
    },
  };
};
