import type { AddedTree, ReportedHazard } from "../completion/completion.ts";
import type { AdditionPreview, GivenCompletion } from "./record-preview.ts";
import type { RecordedAddition, WorkRecord } from "./work-record.ts";

/** What becomes of the trees and hazards that a file reports beside its visits. */
export function previewAdditions(given: GivenCompletion, record: WorkRecord, nextRevision: number): AdditionPreview[] {
  const { reportId, exportedAt, zoneId, who, addedTrees, hazards } = given.completion;
  const known = new Map(
    record.additions
      .filter((one) => one.reportId === reportId && one.replacedIn === null)
      .map((one) => [one.added.addedId, one]),
  );
  const from = { reportId, exportedAt, revision: nextRevision, zoneId, who, replacedIn: null };
  const all: RecordedAddition[] = [
    ...addedTrees.map((added) => ({ ...from, kind: "tree" as const, added })),
    ...hazards.map((added) => ({ ...from, kind: "hazard" as const, added })),
  ];
  return all.map((addition): AdditionPreview => {
    const judged = (status: AdditionPreview["status"], reason: string) => ({
      file: given.file,
      reportId,
      status,
      reason,
      addition,
    });
    const before = known.get(addition.added.addedId);
    if (before === undefined)
      return judged("take", addition.kind === "tree" ? "A tree to survey." : "A hazard to look at.");
    if (isSame(before.added, addition.added)) return judged("already-taken", "The record has it.");
    return before.exportedAt >= exportedAt
      ? judged("already-taken", "The record has a later file of the same copy.")
      : judged("take", "Takes the place of what the same copy said.");
  });
}

const isSame = (one: AddedTree | ReportedHazard, other: AddedTree | ReportedHazard): boolean =>
  JSON.stringify({ ...one, recordedAt: "" }) === JSON.stringify({ ...other, recordedAt: "" });
