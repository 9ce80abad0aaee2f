import type { Completion, VisitCompletion } from "../../../src/core/plan/completion/completion.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { smallPlan } from "../../app/small-plan.ts";
import { COUNT } from "./kept-page.ts";

const PLAN = smallPlan(COUNT);
const ZONE = PLAN.zones[0]!;

/** What a crew reports of the kept plan's first zone: as many of its visits as asked for, done, and after them visits that the plan does not have. */
export function crewReport(visits: number): Completion {
  const entries = Array.from(
    { length: visits },
    (_, at): VisitCompletion => ({
      visitId: ZONE.visitIds[at] ?? `X-${at}/1`,
      treeId: ZONE.treeIds[at] ?? `X-${at}`,
      outcome: "done",
      reason: null,
      date: isoDate("2026-11-20"),
      who: "R. Alder",
      crownBaseM: 4.2,
      headroomM: null,
      doseShare: 0.14,
      notes: "",
      photos: [],
      recordedAt: "2026-11-20T15:00:00Z",
    }),
  );
  return {
    format: "boughline-completion",
    version: 1,
    appVersion: "0.1.0",
    planId: PLAN.planId,
    revision: PLAN.revision,
    zoneId: ZONE.zoneId,
    reportId: "alder",
    exportedAt: "2026-11-20T16:00:00Z",
    who: "R. Alder",
    crewHours: 9,
    notes: "",
    visits: entries,
    addedTrees: [],
    hazards: [],
  };
}
