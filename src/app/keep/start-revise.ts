import type { ReviseAnswer, Revised, ReviseRequest } from "./revise-messages.ts";

/** Makes the files of a plan's next revision off the main thread. Rejects with an Error whose message is a sentence for the reader. */
export function startRevise(request: ReviseRequest): Promise<Revised> {
  const worker = new Worker(new URL("./revise-worker.ts", import.meta.url), { type: "module", name: "boughline save" });
  return new Promise<Revised>((resolve, reject) => {
    worker.addEventListener("message", ({ data }: MessageEvent<ReviseAnswer>) => {
      worker.terminate();
      if (data.type === "done") resolve(data.revised);
      else reject(new Error(data.reason));
    });
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      worker.terminate();
      reject(new Error("The work stopped before the files were made, perhaps for lack of memory."));
    });
    worker.postMessage(request);
  });
}
