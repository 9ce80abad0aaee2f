import { openPlan } from "../../formats/plan/open-plan.ts";
import { memorySource } from "../../formats/plan/plan-source.ts";
import { revisePlan } from "../../formats/plan/revise-plan.ts";
import { zip } from "../../formats/zip.ts";
import { replayEdits } from "./replay-edits.ts";
import type { ReviseAnswer, Revised, ReviseRequest } from "./revise-messages.ts";

// One worker makes one revision; the page ends it after the answer.

const scope = self as unknown as DedicatedWorkerGlobalScope;

scope.addEventListener("message", async ({ data }: MessageEvent<ReviseRequest>) => {
  try {
    const revised = await revise(data);
    const buffers = new Set([...revised.files.values(), revised.zip].map((bytes) => bytes.buffer as ArrayBuffer));
    scope.postMessage({ type: "done", revised } satisfies ReviseAnswer, [...buffers]);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    scope.postMessage({ type: "failed", reason } satisfies ReviseAnswer);
  }
});

async function revise({ base, edits, revision, zip: wanted }: ReviseRequest): Promise<Revised> {
  const before = new Map<string, Uint8Array>();
  for (const [name, blob] of base) before.set(name, new Uint8Array(await blob.arrayBuffer()));
  if (revision === null) return { files: before, zip: zipOf(before), leftOut: 0 };
  const source = memorySource(before);
  const { opened, leftOut } = replayEdits(await openPlan(source), edits);
  const files = await revisePlan({ ...opened.plan, revision }, source);
  const sent =
    wanted === "all" ? files : new Map([...files].filter(([name, bytes]) => !isSame(bytes, before.get(name))));
  return { files, zip: zipOf(sent), leftOut: leftOut.length };
}

const zipOf = (files: ReadonlyMap<string, Uint8Array>): Uint8Array =>
  zip([...files].map(([name, bytes]) => ({ name, bytes })));

const isSame = (one: Uint8Array, other: Uint8Array | undefined): boolean =>
  other !== undefined && one.length === other.length && one.every((byte, at) => byte === other[at]);
