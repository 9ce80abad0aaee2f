import type { Prescription, Visit } from "../../model/prescription.ts";
import { formatDate } from "../../units/format-date.ts";
import { formatShare } from "../../units/format-length.ts";
import { REASON_WORDS } from "../completion/reason-words.ts";
import { together } from "./tree-after-work.ts";
import type { RecordedVisit } from "./work-record.ts";

/** Who comes back sets up again: a visit that is partly done keeps at least this share of its hours. Our policy. */
const LEAST_HOURS_SHARE = 0.25;
/** Longest part of a crew's note that is told on, in characters; the record has it whole. */
const MOST_NOTE = 300;

/**
 * A prescription with what was reported of visits that stay open: told first among its cautions, and of a visit that is partly done only the dose
 * that is left, as a share of the crown that was left, with its part of the hours. A dose that was not reported takes nothing off.
 */
export function withOpenWork(prescription: Prescription, open: readonly RecordedVisit[]): Prescription {
  if (open.length === 0) return prescription;
  const last = new Map(open.map((one) => [one.entry.visitId, one]));
  const taken = new Map<string, number>();
  for (const { entry } of open) {
    if (entry.outcome !== "partly" || entry.doseShare === null) continue;
    taken.set(entry.visitId, together([taken.get(entry.visitId) ?? 0, entry.doseShare]));
  }
  const takenShare = together([...taken.values()]);
  return {
    ...prescription,
    visits: prescription.visits.map((visit) => whatIsLeft(visit, taken.get(visit.visitId) ?? 0)),
    doseTotalShare: Math.max(0, prescription.doseTotalShare - takenShare),
    cautions: [
      ...[...last.values()].map((one) => reportWords(one, taken.get(one.entry.visitId) ?? 0)),
      ...prescription.cautions,
    ],
  };
}

function whatIsLeft(visit: Visit, takenShare: number): Visit {
  if (takenShare <= 0 || visit.doseShare <= 0) return visit;
  const leftShare = Math.max(0, visit.doseShare - takenShare);
  return {
    ...visit,
    doseShare: takenShare >= 1 ? 0 : leftShare / (1 - takenShare),
    hours: visit.hours * Math.max(LEAST_HOURS_SHARE, leftShare / visit.doseShare),
  };
}

function reportWords({ entry }: RecordedVisit, takenShare: number): string {
  const what = entry.outcome === "partly" ? "Partly done" : "Not done";
  const who = entry.who.trim() === "" ? "" : ` by ${entry.who.trim()}`;
  const why = entry.reason === null ? "" : `, because ${REASON_WORDS[entry.reason]}`;
  const dose = takenShare > 0 ? `; ${formatShare(takenShare)} of the live crown was taken` : "";
  const note = entry.notes.trim().replace(/\s+/g, " ").slice(0, MOST_NOTE);
  return `${what} on ${formatDate(entry.date)}${who}${why}${dose}.${note === "" ? "" : ` The crew's note: ${note}`}`;
}

/** What a tree that is gone gets: nothing, and why. */
export function goneTree(before: Prescription, { entry }: RecordedVisit): Prescription {
  const who = entry.who.trim() === "" ? "a crew" : entry.who.trim();
  const note = entry.notes.trim().replace(/\s+/g, " ").slice(0, MOST_NOTE);
  return {
    ...before,
    options: [],
    chosen: null,
    tasks: [],
    visits: [],
    refer: null,
    remedy: "none",
    doseTotalShare: 0,
    liftM: null,
    liftToM: null,
    shortenM: null,
    bearingDeg: null,
    liveCrownRatioAfter: before.liveCrownRatioBefore,
    openUntilYear: null,
    urgency: "clear",
    overdue: false,
    cautions: [],
    why: `Reported gone on ${formatDate(entry.date)} by ${who}: no work is planned.${note === "" ? "" : ` The crew's note: ${note}`}`,
  };
}
