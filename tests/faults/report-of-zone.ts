import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Completion, VisitCompletion } from "../../src/core/plan/completion/completion.ts";
import type { PrescriptionLine } from "../../src/core/plan/read-plan.ts";
import { isoDate } from "../../src/core/units/calendar.ts";

interface ZoneMembers {
  readonly zone: string;
  readonly visit_ids: readonly string[];
}

/** The zones that a plan folder's current revision holds, with their visits in order of work. */
export function zonesOf(dir: string): ZoneMembers[] {
  const { features } = JSON.parse(readFileSync(join(dir, "current/zones.geojson"), "utf8")) as {
    features: { properties: ZoneMembers }[];
  };
  return features.map(({ properties }) => properties);
}

/** The lines of `prescriptions.jsonl` of a plan folder's current revision, or of another. */
export const linesOf = (dir: string, revision = "current"): PrescriptionLine[] =>
  readFileSync(join(dir, revision, "prescriptions.jsonl"), "utf8")
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as PrescriptionLine);

/** What a crew might report of a zone of a plan folder: of five visits three are done, one partly, one not. `change` alters an entry, by its place. */
export function reportOfZone(
  dir: string,
  zone: ZoneMembers,
  about: Partial<Completion> = {},
  change: (entry: VisitCompletion, at: number) => VisitCompletion = (entry) => entry,
): Completion {
  const { plan, revision } = JSON.parse(readFileSync(join(dir, "current/plan.json"), "utf8"));
  return {
    format: "boughline-completion",
    version: 1,
    appVersion: "0.1.0",
    planId: plan,
    revision,
    zoneId: zone.zone,
    reportId: `report-${zone.zone}`,
    exportedAt: "2026-11-10T16:00:00Z",
    who: "R. Alder",
    crewHours: 12,
    notes: "",
    visits: zone.visit_ids.map((visitId, at) => change(entryOf(visitId, at), at)),
    addedTrees: [],
    hazards: [],
    ...about,
  };
}

function entryOf(visitId: string, at: number): VisitCompletion {
  const outcome = at % 5 === 3 ? "partly" : at % 5 === 4 ? "not-done" : "done";
  return {
    visitId,
    treeId: visitId.slice(0, visitId.lastIndexOf("/v")),
    outcome,
    reason: outcome === "done" ? null : "out-of-time",
    date: isoDate("2026-11-10"),
    who: "R. Alder",
    crownBaseM: null,
    headroomM: null,
    doseShare: outcome === "partly" ? 0.05 : null,
    notes: "",
    photos: [],
    recordedAt: "2026-11-10T15:00:00Z",
  };
}
