import type { Plan } from "../../core/model/plan.ts";
import type { ArboristWord } from "../../core/model/word.ts";
import type { PrescriptionLine } from "../../core/plan/read-plan.ts";
import { readRecord } from "../../core/plan/record/record-lines.ts";
import type { EarlierVisits } from "../../core/plan/record/record-preview.ts";
import { visitsById } from "../../core/plan/record/visits-by-id.ts";
import { EMPTY_RECORD, type WorkRecord } from "../../core/plan/record/work-record.ts";
import { readWords } from "../../core/plan/word/word-lines.ts";
import { openPlanAlone } from "./open-plan.ts";
import type { PlanSource } from "./plan-source.ts";

/** A plan opened for recording: what it asks for now, what was recorded, and what its earlier revisions asked for. */
export interface OpenedRecord {
  readonly source: PlanSource;
  readonly plan: Plan;
  readonly record: WorkRecord;
  /** What arborists said, in the order they said it. */
  readonly words: readonly ArboristWord[];
  /** Visits of an earlier revision, read once and when first asked for; null where the revision is not at hand. */
  visitsOf(revision: number): Promise<EarlierVisits | null>;
}

/**
 * Opens a plan's current revision for recording. `earlier` gives the files of an earlier revision, null where it is not at hand: reports made from it
 * then wait for a decision. Throws as `openPlanAlone` does, and RangeError on a newer record.
 */
export async function openRecord(
  source: PlanSource,
  earlier: (revision: number) => PlanSource | null = () => null,
): Promise<OpenedRecord> {
  const plan = await openPlanAlone(source);
  const bytes = await source.read("record.jsonl");
  const said = await source.read("words.jsonl");
  const read = new Map<number, EarlierVisits | null>();
  return {
    source,
    plan,
    record: bytes === null ? EMPTY_RECORD : readRecord(new TextDecoder().decode(bytes)),
    words: said === null ? [] : readWords(new TextDecoder().decode(said)),
    visitsOf: async (revision) => {
      const known = read.get(revision);
      if (known !== undefined) return known;
      const visits = await visitsIn(earlier(revision));
      read.set(revision, visits);
      return visits;
    },
  };
}

async function visitsIn(source: PlanSource | null): Promise<EarlierVisits | null> {
  const bytes = (await source?.read("prescriptions.jsonl")) ?? null;
  if (bytes === null) return null;
  try {
    const lines = new TextDecoder().decode(bytes).split("\n");
    return visitsById(
      lines.filter((line) => line !== "").map((line) => (JSON.parse(line) as PrescriptionLine).prescription),
    );
  } catch (error) {
    // A damaged old revision is as good as none: its reports are decided by hand.
    if (error instanceof SyntaxError || error instanceof TypeError) return null;
    throw error;
  }
}
