import type { PartAnswer } from "../formats/plan/part/part-messages.ts";
import type { StartPartThread } from "../formats/plan/part/part-thread.ts";

/** Most workers that plan parts of a run: each holds a copy of what stands around the trees. Our policy. */
const MOST_WORKERS = 8;

/** Workers for this machine, one a core: the page and the worker that puts the plan together have little to do meanwhile. */
export const workersHere = (): number => Math.min(MOST_WORKERS, navigator.hardwareConcurrency ?? 1);

/** Starts a worker that plans parts. */
export const startPartWorker: StartPartThread = (onAnswer, onDeath) => {
  const worker = new Worker(new URL("./part-worker.ts", import.meta.url), { type: "module", name: "boughline parts" });
  worker.addEventListener("message", ({ data }: MessageEvent<PartAnswer>) => onAnswer(data));
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    onDeath(event.message || "perhaps for lack of memory");
  });
  return { post: (message) => worker.postMessage(message), end: () => worker.terminate() };
};
