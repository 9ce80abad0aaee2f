import { checkSources } from "./check-sources.ts";
import type { IntakeAnswer, IntakeRequest } from "./intake-messages.ts";
import { openSource } from "./open-source.ts";
import { SourceReads } from "./source-reads.ts";

// One worker serves one intake and keeps what it read; the page ends it before the plan is made, so that files are not held twice.

const scope = self as unknown as DedicatedWorkerGlobalScope;
const answer = (message: IntakeAnswer) => scope.postMessage(message);

/** The newest check asked for; an older one is given up. */
let newest = 0;
let turnNow = 0;
const reads = new SourceReads((doing) => answer({ type: "doing", turn: turnNow, doing }));
/** Requests are worked off one after another. */
let line: Promise<void> = Promise.resolve();

scope.addEventListener("message", ({ data }: MessageEvent<IntakeRequest>) => {
  if (data.type === "check") newest = data.turn;
  line = line.then(() => work(data));
});

async function work(request: IntakeRequest): Promise<void> {
  const { turn } = request;
  try {
    if (request.type === "open") {
      const bytes = new Uint8Array(await request.blob.arrayBuffer());
      answer({ type: "opened", turn, tables: await openSource(bytes, request.name) });
      return;
    }
    turnNow = turn;
    const isCurrent = () => newest === turn;
    if (!isCurrent()) return;
    const report = await checkSources(request.question, reads, isCurrent, (early) => {
      if (isCurrent()) answer({ type: "columns", turn, report: early });
    });
    if (report !== null) answer({ type: "checked", turn, report });
  } catch (error) {
    answer({ type: "failed", turn, reason: error instanceof Error ? error.message : String(error) });
  }
}
