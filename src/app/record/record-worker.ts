import type { GivenCompletion } from "../../core/plan/record/record-preview.ts";
import { previewWords } from "../../core/plan/word/preview-words.ts";
import { readCompletions } from "../../formats/completion/read-completions.ts";
import { openPlan } from "../../formats/plan/open-plan.ts";
import { type OpenedRecord, openRecord } from "../../formats/plan/open-record.ts";
import { memorySource, type PlanSource, urlSource } from "../../formats/plan/plan-source.ts";
import { previewRecordPlan, recordPlan } from "../../formats/plan/record-plan.ts";
import { revisePlan } from "../../formats/plan/revise-plan.ts";
import { zip } from "../../formats/zip.ts";
import { replayEdits } from "../keep/replay-edits.ts";
import type {
  Decisions,
  HandedIn,
  RecordAnswer,
  RecordBase,
  RecordRequest,
  RecordShown,
  RecordTaken,
} from "./record-messages.ts";

// One worker serves one recording and keeps the plan open between preview and taking; the page ends it.

const scope = self as unknown as DedicatedWorkerGlobalScope;
const answer = (message: RecordAnswer, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

/** The plan that is recorded in. */
interface Desk {
  readonly opened: OpenedRecord;
  /** Files of the revision at hand, before any edit. */
  readonly before: ReadonlyMap<string, Uint8Array>;
  readonly leftOut: number;
}

let desk: Desk | null = null;
let given: readonly GivenCompletion[] = [];
/** Requests are worked off one after another. */
let line: Promise<void> = Promise.resolve();

scope.addEventListener("message", ({ data }: MessageEvent<RecordRequest>) => {
  line = line.then(() => work(data));
});

async function work(request: RecordRequest): Promise<void> {
  const { turn } = request;
  try {
    if (request.type === "open") {
      desk = await open(request.base);
      answer({ type: "opened", turn });
      return;
    }
    if (desk === null) throw new Error("The plan was not opened.");
    if (request.type === "preview") {
      answer({ type: "shown", turn, shown: await show(desk.opened, request.files, request.decisions) });
      return;
    }
    if (request.type === "say") given = [];
    const taken = await take(desk, request);
    const buffers = taken === null ? [] : [...taken.files.values(), taken.changed].map(({ buffer }) => buffer);
    answer({ type: "taken", turn, taken }, [...new Set(buffers)] as ArrayBuffer[]);
  } catch (error) {
    answer({ type: "failed", turn, reason: error instanceof Error ? error.message : String(error) });
  }
}

/** Edits made on the plan are part of what is recorded in, as if it had been saved before. */
async function open({ files, edits, earlier }: RecordBase): Promise<Desk> {
  const before = new Map<string, Uint8Array>();
  for (const [name, blob] of files) before.set(name, new Uint8Array(await blob.arrayBuffer()));
  const revisions = (revision: number): PlanSource | null =>
    earlier === null ? null : urlSource(`${earlier}${revision}/`);
  const source = memorySource(before);
  if (edits.length === 0) return { opened: await openRecord(source, revisions), before, leftOut: 0 };
  const { opened, leftOut } = replayEdits(await openPlan(source), edits);
  const edited = memorySource(await revisePlan(opened.plan, source));
  return { opened: await openRecord(edited, revisions), before, leftOut: leftOut.length };
}

async function show(opened: OpenedRecord, files: readonly HandedIn[], decisions: Decisions): Promise<RecordShown> {
  const read = await readCompletions(
    await Promise.all(
      files.map(async ({ name, blob, modifiedAt }) => ({
        name,
        bytes: new Uint8Array(await blob.arrayBuffer()),
        modifiedAt,
      })),
    ),
    opened.plan,
    opened.record,
  );
  given = read.given;
  const preview = await previewRecordPlan(opened, given, decisions);
  return { preview, refused: read.refused, notRead: read.notRead };
}

async function take(
  { opened, before, leftOut }: Desk,
  request: Extract<RecordRequest, { type: "take" | "say" }>,
): Promise<RecordTaken | null> {
  const decisions: Decisions = request.type === "take" ? request.decisions : new Map();
  const said = request.type === "say" ? request.words : [];
  const refused = previewWords(opened.plan, opened.words, said).find(({ status }) => status === "refused");
  if (refused !== undefined) throw new Error(refused.reason);
  const output = await recordPlan(opened, given, decisions, opened.plan.revision + 1, said);
  if (output === null) return null;
  const { files, summary, changedTreeIds, words, breaks } = output;
  const changed = zip([...files].flatMap(([name, bytes]) => (isSame(bytes, before.get(name)) ? [] : { name, bytes })));
  return { files, changed, summary, changedTreeIds, words, breaks, leftOut };
}

const isSame = (one: Uint8Array, other: Uint8Array | undefined): boolean =>
  other !== undefined && one.length === other.length && one.every((byte, at) => byte === other[at]);
