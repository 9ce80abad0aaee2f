import { makePlan } from "../formats/plan/make-plan.ts";
import type { LayerFile } from "../formats/plan/plan-request.ts";
import type { PlanAnswer, PlanJobRequest } from "./plan-messages.ts";

// One worker makes one plan: the page ends it after the answer, or earlier to cancel.

const scope = self as unknown as DedicatedWorkerGlobalScope;
const answer = (message: PlanAnswer, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

scope.addEventListener("message", async ({ data }: MessageEvent<PlanJobRequest>) => {
  try {
    const output = await makePlan({ ...data, files: await readFiles(data) }, (share, doing) =>
      answer({ type: "progress", share, doing }),
    );
    const buffers = new Set([...output.files.values()].map((bytes) => bytes.buffer as ArrayBuffer));
    answer({ type: "done", output }, [...buffers]);
  } catch (error) {
    answer({ type: "failed", reason: error instanceof Error ? error.message : String(error) });
  }
});

async function readFiles(request: PlanJobRequest): Promise<LayerFile[]> {
  const files: LayerFile[] = [];
  for (const { layer, name, blob, filter } of request.files) {
    answer({ type: "progress", share: 0, doing: `Reading ${name}` });
    files.push({ layer, name, filter, bytes: new Uint8Array(await blob.arrayBuffer()) });
  }
  return files;
}
