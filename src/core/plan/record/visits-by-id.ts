import type { Prescription, Visit } from "../../model/prescription.ts";
import type { EarlierVisits } from "./record-preview.ts";
import type { PlannedVisit } from "./work-record.ts";

/** Every visit of a revision by its id, with the years that the tree's prescribed option lasts. */
export function visitsById(prescriptions: readonly Prescription[]): EarlierVisits {
  const byId = new Map<string, { visit: Visit; lastsYears: number | null }>();
  for (const { visits, options, chosen } of prescriptions) {
    const lastsYears = chosen === null ? null : (options[chosen]?.lastsYears ?? null);
    for (const visit of visits) byId.set(visit.visitId, { visit, lastsYears });
  }
  return byId;
}

/** A visit as the record keeps it. */
export const plannedVisit = ({
  visit,
  lastsYears,
}: {
  readonly visit: Visit;
  readonly lastsYears: number | null;
}): PlannedVisit => ({
  crew: visit.crew,
  hours: visit.hours,
  doseShare: visit.doseShare,
  due: visit.due,
  tasks: visit.tasks.map(({ taskId, remedy, conflictIds, belowM, targetM, doseShare }) => ({
    taskId,
    remedy,
    conflictIds,
    belowM,
    targetM,
    doseShare,
    lastsYears: conflictIds.length === 0 ? null : lastsYears,
  })),
});

/** Whether two revisions ask for the same work at a visit: tasks, dose and crew; dates may differ. */
export const asksForTheSame = (one: Visit, other: Visit): boolean =>
  one.treeId === other.treeId &&
  one.crew === other.crew &&
  one.doseShare === other.doseShare &&
  JSON.stringify(one.tasks) === JSON.stringify(other.tasks);
