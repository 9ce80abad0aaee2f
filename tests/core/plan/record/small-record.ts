import type { Completion, VisitCompletion } from "../../../../src/core/plan/completion/completion.ts";
import { previewRecord } from "../../../../src/core/plan/record/preview-record.ts";
import type { GivenCompletion, RecordInput, RecordPreview } from "../../../../src/core/plan/record/record-preview.ts";
import { takeIntoRecord } from "../../../../src/core/plan/record/take-record.ts";
import { EMPTY_RECORD, type WorkRecord } from "../../../../src/core/plan/record/work-record.ts";
import { smallPlan } from "../../packet/small-plan.ts";
import { reported, sampleCompletion } from "../completion/sample-completion.ts";

/** A completion of the small plan in a file of its own; its digest is made from what it says. */
export const given = (change: Partial<Completion> = {}, file = "report.json"): GivenCompletion => {
  const completion = { ...sampleCompletion, addedTrees: [], hazards: [], ...change };
  return { file, sha256: JSON.stringify(completion), completion };
};

export const inputOf = (files: readonly GivenCompletion[], more: Partial<RecordInput> = {}): RecordInput => ({
  plan: smallPlan,
  record: EMPTY_RECORD,
  given: files,
  earlier: new Map(),
  decisions: new Map(),
  ...more,
});

export const preview = (files: readonly GivenCompletion[], more: Partial<RecordInput> = {}): RecordPreview =>
  previewRecord(inputOf(files, more));

/** The record after files were taken one after another, the plan staying where it is. */
export function recordOf(...files: readonly GivenCompletion[]): WorkRecord {
  let record = EMPTY_RECORD;
  for (const file of files) {
    record = takeIntoRecord(smallPlan, record, preview([file], { record }), smallPlan.revision + 1).record;
  }
  return record;
}

/** What became of each entry: its status by visit. */
export const statuses = ({ visits }: RecordPreview): string[] =>
  visits.map(({ visitId, status }) => `${visitId} ${status}`);

/** Another crew's copy that reports the zone's first visit. */
export const otherCrew = (change: Partial<VisitCompletion> = {}, about: Partial<Completion> = {}): GivenCompletion =>
  given(
    {
      reportId: "other",
      who: "B. Birch",
      visits: [reported(0, { crownBaseM: 4.6, headroomM: 4.6, who: "B. Birch", ...change })],
      ...about,
    },
    "other.json",
  );
