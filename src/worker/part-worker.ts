import { answerParts } from "../formats/plan/part/answer-parts.ts";
import type { PartRequest } from "../formats/plan/part/part-messages.ts";

// Plans parts of a run for the worker that makes the plan, which ends it.

const scope = self as unknown as DedicatedWorkerGlobalScope;
const answered = answerParts((message, transfer) => scope.postMessage(message, transfer));
scope.addEventListener("message", ({ data }: MessageEvent<PartRequest>) => answered(data));
