import type { PlanOutput, Progress } from "../formats/plan/plan-request.ts";
import type { PlanAnswer, PlanJobRequest } from "./plan-messages.ts";

/** A plan being made in a worker of its own. */
export interface PlanJob {
  /** Rejects with an Error whose message is a sentence for the reader; never settles after `cancel`. */
  readonly result: Promise<PlanOutput>;
  /** Ends the worker at once; nothing of the plan is kept. */
  cancel(): void;
}

/** Starts making a plan off the main thread. Nothing leaves the machine: the worker reads the given blobs and answers with bytes. */
export function startPlanJob(request: PlanJobRequest, onProgress: Progress): PlanJob {
  const worker = new Worker(new URL("./plan-worker.ts", import.meta.url), { type: "module", name: "boughline plan" });
  const result = new Promise<PlanOutput>((resolve, reject) => {
    worker.addEventListener("message", ({ data }: MessageEvent<PlanAnswer>) => {
      if (data.type === "progress") {
        onProgress(data.share, data.doing);
        return;
      }
      worker.terminate();
      if (data.type === "done") resolve(data.output);
      else reject(new Error(data.reason));
    });
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      worker.terminate();
      reject(
        new Error("The work stopped before the plan was made, perhaps for lack of memory. Try fewer or smaller files."),
      );
    });
  });
  worker.postMessage(request);
  return { result, cancel: () => worker.terminate() };
}
