import { makePlan } from "../formats/plan/make-plan.ts";
import type { LayerFile } from "../formats/plan/plan-request.ts";
import { readingAllowance, USUAL_SECONDS } from "../formats/read/reading-allowance.ts";
import { blobBytes } from "./blob-bytes.ts";
import type { PlanAnswer, PlanJobRequest } from "./plan-messages.ts";
import { startPartWorker, workersHere } from "./start-part-worker.ts";

// One worker makes one plan: the page ends it after the answer, or earlier to cancel.

const scope = self as unknown as DedicatedWorkerGlobalScope;
const answer = (message: PlanAnswer, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

scope.addEventListener("message", async ({ data }: MessageEvent<PlanJobRequest>) => {
  try {
    const allowance = readingAllowance(USUAL_SECONDS, () => performance.now(), heapLimitBytes());
    const output = await makePlan(
      { ...data, files: await readFiles(data) },
      (share, doing) => answer({ type: "progress", share, doing }),
      allowance,
      { threads: workersHere(), startThread: startPartWorker },
    );
    const buffers = new Set([...output.files.values()].map((bytes) => bytes.buffer as ArrayBuffer));
    answer({ type: "done", output }, [...buffers]);
  } catch (error) {
    answer({ type: "failed", reason: error instanceof Error ? error.message : String(error) });
  }
});

async function readFiles(request: PlanJobRequest): Promise<LayerFile[]> {
  const files: LayerFile[] = [];
  for (const { blob, ...file } of request.files) {
    answer({ type: "progress", share: 0, doing: `Reading ${file.name}` });
    files.push({ ...file, bytes: await blobBytes(blob, file.name) });
  }
  return files;
}

/** The most this worker's heap can hold; null in browsers that do not say. */
function heapLimitBytes(): number | null {
  return (performance as { memory?: { jsHeapSizeLimit?: number } }).memory?.jsHeapSizeLimit ?? null;
}
