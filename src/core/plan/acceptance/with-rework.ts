import type { Prescription, Task, Visit } from "../../model/prescription.ts";
import { URGENCIES } from "../../model/terms.ts";
import { addDays, type IsoDate } from "../../units/calendar.ts";
import { formatDate } from "../../units/format-date.ts";
import type { PlannedVisit, RecordedVisit, WorkRecord } from "../record/work-record.ts";
import type { RecordedCheck } from "./recorded-check.ts";

/** A finished visit that did not pass its check and was not worked on again. */
export interface Rework {
  readonly check: RecordedCheck;
  readonly planned: PlannedVisit;
}

/** Calendar days from the check in which work is made good. Our policy. */
export const REWORK_DAYS = 30;
/** Share of a visit's hours that making it good takes. Our policy. */
const REWORK_HOURS_SHARE = 0.5;

/** Id of the visit that makes another good, `TREE/v1r` for `TREE/v1`: other visits keep their ids. */
export const reworkId = (visitId: string): string => `${visitId}r`;

/** The reworks that are open, by tree: a finished visit has a check in force that it did not pass, and nobody has reported its rework as done. */
export function openReworks(record: WorkRecord): Map<string, Rework> {
  const done = new Map<string, RecordedVisit>();
  for (const visit of record.visits) {
    if (visit.replacedIn === null && visit.entry.outcome === "done") done.set(visit.entry.visitId, visit);
  }
  const reworks = new Map<string, Rework>();
  for (const check of record.checks ?? []) {
    if (check.replacedIn !== null || check.result !== "rework") continue;
    const visit = done.get(check.visitId);
    if (visit !== undefined && !done.has(reworkId(check.visitId))) {
      reworks.set(check.treeId, { check, planned: visit.planned });
    }
  }
  return reworks;
}

/**
 * A prescription with the visit that makes good what did not pass, before all others. It takes no live crown that is counted: what is to be cut is
 * what the check says. Crew as before, half the hours, due 30 days after the check (our policy).
 */
export function withRework(prescription: Prescription, rework: Rework | undefined, asOf: IsoDate): Prescription {
  if (rework === undefined) return prescription;
  const { check, planned } = rework;
  const { treeId, treeRow } = prescription;
  const cause = `The work of visit ${check.visitId} did not pass its check on ${formatDate(check.on)} by ${check.by}: ${sentence(check.reason)}`;
  const task: Task = {
    taskId: `${reworkId(check.visitId)}/rework`,
    cause,
    conflictIds: [...new Set(planned.tasks.flatMap(({ conflictIds }) => conflictIds))],
    objective: "clearance",
    remedy: "remedial",
    where: "where the work was done",
    bearingDeg: null,
    belowM: heightOf(planned),
    targetM: null,
    how: "As the check says, at the branch collar; no heading cuts.",
    cut: "removal",
    method: "hand",
    timing: "any-time",
    doseShare: 0,
    limbDiameterM: [0, 0],
  };
  const due = addDays(check.on, REWORK_DAYS);
  const visit: Visit = {
    visitId: reworkId(check.visitId),
    treeId,
    treeRow,
    number: 1,
    tasks: [task],
    doseShare: 0,
    crew: planned.crew,
    hours: Math.round(planned.hours * REWORK_HOURS_SHARE * 1000) / 1000,
    due,
    windowStart: check.on,
    windowEnd: due,
    windowReason: "work that did not pass its check is made good",
    urgency: "next-window",
    overdue: due < asOf,
    openAfter: [],
  };
  const later = prescription.visits.map((one) => ({ ...one, number: one.number + 1 }));
  return {
    ...prescription,
    tasks: [task, ...prescription.tasks],
    visits: [visit, ...later],
    remedy: prescription.remedy === "none" ? "remedial" : prescription.remedy,
    urgency: URGENCIES[Math.min(URGENCIES.indexOf(prescription.urgency), URGENCIES.indexOf(visit.urgency))]!,
    overdue: prescription.overdue || visit.overdue,
    cautions: [cause, ...prescription.cautions],
    why: prescription.visits.length === 0 ? cause : prescription.why,
  };
}

/** The highest cut that was planned; null where a task did not say. */
function heightOf({ tasks }: PlannedVisit): number | null {
  const heights = tasks.map(({ belowM }) => belowM);
  return heights.length === 0 || heights.includes(null) ? null : Math.max(...(heights as number[]));
}

const sentence = (text: string): string => (/[.!?]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`);
