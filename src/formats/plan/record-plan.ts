import type { Plan } from "../../core/model/plan.ts";
import { renamedCompletion, renamedVisits } from "../../core/plan/carry/rename-ids.ts";
import { previewRecord } from "../../core/plan/record/preview-record.ts";
import { recordText } from "../../core/plan/record/record-lines.ts";
import type {
  EarlierVisits,
  GivenCompletion,
  RecordInput,
  RecordPreview,
} from "../../core/plan/record/record-preview.ts";
import { type WorkSummary, workSummary } from "../../core/plan/record/work-summary.ts";
import { previewWords } from "../../core/plan/word/preview-words.ts";
import { wordsText } from "../../core/plan/word/word-lines.ts";
import type { GivenWord, WordPreview } from "../../core/plan/word/word-preview.ts";
import { recordWork } from "../../core/record-work.ts";
import { sayWords } from "../../core/say-words.ts";
import { buildSurroundings } from "../../core/surroundings/build-surroundings.ts";
import { addedFile } from "./added-file.ts";
import { readLayerFiles } from "./layer-files.ts";
import type { OpenedRecord } from "./open-record.ts";
import type { PlanOutput } from "./plan-request.ts";
import { planRules } from "./plan-rules.ts";
import { RefusedInput } from "./refused-input.ts";
import { revisePlan } from "./revise-plan.ts";

/** Visits that somebody decided to take although something stands against it, with the report to take each from; null where one alone has it. */
export type RecordDecisions = ReadonlyMap<string, string | null>;

/** A revision with work recorded in it, and what was done. */
export interface RecordOutput extends PlanOutput {
  readonly preview: RecordPreview;
  /** What became of the words given, those of the reports first. */
  readonly words: readonly WordPreview[];
  /** Limits that the words taken break, by word id. */
  readonly breaks: ReadonlyMap<string, readonly string[]>;
  readonly summary: WorkSummary;
  /** Trees whose figures are new, in plan order. */
  readonly changedTreeIds: readonly string[];
}

/** What taking completions would do; nothing is changed. */
export async function previewRecordPlan(
  opened: OpenedRecord,
  given: readonly GivenCompletion[],
  decisions: RecordDecisions = new Map(),
): Promise<RecordPreview> {
  return previewRecord(await inputOf(opened, given, decisions));
}

/** The summary of what is recorded already. Throws {@link RefusedInput} when the plan's standard cannot be used. */
export async function recordedSummary({ source, plan, record }: OpenedRecord): Promise<WorkSummary> {
  const { standard } = await planRules(source);
  return workSummary(plan, record, standard.crew.people);
}

/**
 * The next revision with exactly what {@link previewRecordPlan} shows as `take`, or null where that is nothing. Throws {@link RefusedInput} for a plan of
 * an earlier version, which kept no layers to measure trees against.
 */
export async function recordPlan(
  opened: OpenedRecord,
  given: readonly GivenCompletion[],
  decisions: RecordDecisions,
  revision: number,
  said: readonly GivenWord[] = [],
): Promise<RecordOutput | null> {
  const input = await inputOf(opened, given, decisions);
  const preview = previewRecord(input);
  const words = previewWords(opened.plan, opened.words, wordsGiven(given, said));
  if (!preview.changesAnything && !words.some(({ status }) => status === "take")) return null;
  const { source, plan } = opened;
  const rules = await planRules(source);
  const layers = await readLayerFiles(source);
  if (layers === null && plan.surroundings.length > 0) {
    throw new RefusedInput([
      "This plan was made by an earlier version, which kept no layers, so its trees cannot be measured anew.",
      'Make it anew with "boughline enrich" and the same files, then record.',
    ]);
  }
  const { surroundings } = buildSurroundings(layers ?? {}, rules.columns, rules.standard, plan.options);
  const recorded = preview.changesAnything
    ? recordWork(input, preview, revision, surroundings, rules.standard, opened.words)
    : { plan: { ...plan, revision }, record: opened.record, changedTreeIds: [] };
  const work = sayWords({ ...recorded, words: opened.words }, words, revision, surroundings, rules.standard);
  const changed = new Set([...recorded.changedTreeIds, ...work.changedTreeIds]);
  const files = await revisePlan(work.plan, source);
  files.set("record.jsonl", new TextEncoder().encode(recordText(work.record)));
  if (work.words.length > 0) files.set("words.jsonl", new TextEncoder().encode(wordsText(work.words)));
  if (work.record.additions.length > 0) files.set("added.geojson", addedFile(work.record));
  return {
    planId: plan.planId,
    revision,
    files,
    findings: work.plan.findings,
    preview,
    words,
    breaks: breaksOf(work.plan, words),
    summary: workSummary(work.plan, work.record, rules.standard.crew.people),
    changedTreeIds: plan.trees.flatMap(({ id }) => (changed.has(id) ? [id] : [])),
  };
}

/** Words that reports bring, and words of their own. */
export const wordsGiven = (given: readonly GivenCompletion[], said: readonly GivenWord[]): GivenWord[] => [
  ...given.flatMap(({ file, completion }) =>
    (completion.words ?? []).map((word): GivenWord => ({ file, line: null, said: { type: "word", word } })),
  ),
  ...said,
];

function breaksOf(plan: Plan, words: readonly WordPreview[]): Map<string, readonly string[]> {
  const taken = new Set(
    words.flatMap(({ status, given: { said } }) =>
      status === "take" && said.type === "word" ? [said.word.wordId] : [],
    ),
  );
  const all = plan.prescriptions.flatMap((one) => one.words ?? []);
  return new Map(
    all.flatMap(({ wordId, breaks }) => (taken.has(wordId) && breaks.length > 0 ? [[wordId, breaks]] : [])),
  );
}

async function inputOf(
  opened: OpenedRecord,
  given: readonly GivenCompletion[],
  decisions: RecordDecisions,
): Promise<RecordInput> {
  const { plan, record } = opened;
  const { names = [] } = record;
  const earlier = new Map<number, EarlierVisits>();
  for (const revision of new Set(given.map(({ completion }) => completion.revision))) {
    if (revision >= plan.revision) continue;
    const visits = await opened.visitsOf(revision);
    if (visits !== null) earlier.set(revision, renamedVisits(visits, revision, names));
  }
  // Packets of before a new inventory name trees as they were called then.
  const renamed = given.map((one) => ({ ...one, completion: renamedCompletion(one.completion, names) }));
  return { plan, record, given: names.length === 0 ? given : renamed, earlier, decisions };
}
