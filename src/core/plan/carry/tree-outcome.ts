import type { ConflictRecord } from "../../model/conflict.ts";
import { CHANGE_ASPECTS, type ChangeAspect, type PlannedThen } from "../../model/plan-change.ts";
import type { Prescription } from "../../model/prescription.ts";
import { rounded } from "../bough-properties.ts";

/** What is planned for a tree, as one text an aspect: two are the same where the plan asks for the same. Words for people are not part of it. */
export type TreeOutcome = Readonly<Record<ChangeAspect, string>>;

/**
 * What a prescription and its conflicts come to. Figures count as the files write them, so that what nobody can see is no change: lengths to a
 * centimeter, doses to a tenth of a percent.
 */
export function treeOutcome(prescription: Prescription, conflicts: readonly ConflictRecord[]): TreeOutcome {
  const { visits, urgency, refer, remedy, liftToM, shortenM, overdue, openUntilYear } = prescription;
  const lines = conflicts.map(
    ({ conflictId, encroachmentM, certainty, hazard }) =>
      `${conflictId} ${rounded(encroachmentM, 3) > 0 ? "now" : "later"} ${certainty} ${hazard ?? "-"}`,
  );
  const works = visits.map(
    ({ tasks, crew, doseShare }) =>
      `${tasks.map((task) => task.remedy).join("+")} ${crew} ${rounded(doseShare * 100, 1)}`,
  );
  const dates = visits.map(({ due, windowStart, windowEnd }) => `${due} ${windowStart} ${windowEnd}`);
  return {
    urgency: `${urgency} ${refer?.code ?? "-"}`,
    conflicts: lines.sort().join("\n"),
    prescription: [remedy, cm(liftToM), cm(shortenM), ...works].join("\n"),
    dates: [String(overdue), String(openUntilYear), ...dates].join("\n"),
  };
}

const cm = (lengthM: number | null): string => (lengthM === null ? "-" : String(rounded(lengthM, 2)));

/** The aspects in which two outcomes differ, the weightiest first. */
export const differingAspects = (one: TreeOutcome, other: TreeOutcome): ChangeAspect[] =>
  CHANGE_ASPECTS.filter((aspect) => one[aspect] !== other[aspect]);

/** What a tree is planned for, in brief. */
export const plannedThen = (prescription: Prescription, conflicts: readonly ConflictRecord[]): PlannedThen => ({
  urgency: prescription.urgency,
  refer: prescription.refer?.code ?? null,
  conflictIds: conflicts.map(({ conflictId }) => conflictId),
  remedy: prescription.remedy,
  dosePct: rounded((prescription.visits[0]?.doseShare ?? 0) * 100, 1),
  due: prescription.visits[0]?.due ?? null,
  overdue: prescription.overdue,
});
