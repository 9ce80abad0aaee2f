import { readFileSync } from "node:fs";
import { LAYERS } from "../../../src/core/model/terms.ts";
import type { Completion, VisitCompletion } from "../../../src/core/plan/completion/completion.ts";
import type { GivenCompletion } from "../../../src/core/plan/record/record-preview.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { makePlan } from "../../../src/formats/plan/make-plan.ts";
import { openRecord } from "../../../src/formats/plan/open-record.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { type RecordOutput, recordPlan } from "../../../src/formats/plan/record-plan.ts";

export type Files = ReadonlyMap<string, Uint8Array>;

/** The sample town's trees of its first streets, with all that stands around them, planned and zoned on a fixed date. */
export async function townPlan(trees: number): Promise<Files> {
  const bytesOf = (layer: string): Uint8Array =>
    readFileSync(new URL(`../../../sample-geojson/${layer}.geojson`, import.meta.url));
  const town = JSON.parse(new TextDecoder().decode(bytesOf("trees")));
  const few = new TextEncoder().encode(JSON.stringify({ ...town, features: town.features.slice(0, trees) }));
  const made = await makePlan(
    {
      revision: 1,
      files: LAYERS.map((layer) => ({
        layer,
        name: `${layer}.geojson`,
        bytes: layer === "trees" ? few : bytesOf(layer),
        filter: null,
      })),
      columns: {},
      standardJson: null,
      options: {
        asOf: isoDate("2026-11-02"),
        units: "us",
        drive: "right",
        place: { hardinessZone: 5, region: "US-WI" },
      },
      crs: null,
      withZones: true,
    },
    () => {},
  );
  return made.files;
}

/** Takes reports into a plan as its next revision; what it was before where there is nothing to take. */
export async function recorded(
  files: Files,
  reports: readonly Completion[],
  decisions: ReadonlyMap<string, string | null> = new Map(),
  earlier: ReadonlyMap<number, Files> = new Map(),
): Promise<{ files: Files; output: RecordOutput | null }> {
  const opened = await openRecord(memorySource(files), (revision) => {
    const then = earlier.get(revision);
    return then === undefined ? null : memorySource(then);
  });
  const output = await recordPlan(opened, reports.map(asGiven), decisions, opened.plan.revision + 1);
  return { files: output?.files ?? files, output };
}

export const asGiven = (completion: Completion): GivenCompletion => ({
  file: `${completion.reportId}.json`,
  sha256: JSON.stringify(completion),
  completion,
});

export const textOf = (files: Files, name: string): string => new TextDecoder().decode(files.get(name));

interface ZoneMembers {
  readonly zone: string;
  readonly state: string;
  readonly visit_ids: readonly string[];
  readonly hours: number;
}
export const zonesOf = (files: Files): ZoneMembers[] =>
  (JSON.parse(textOf(files, "zones.geojson")) as { features: { properties: ZoneMembers }[] }).features.map(
    ({ properties }) => properties,
  );

/** A report of one zone; what it says of each visit comes from `entryOf`, null for nothing. */
export function reportOf(
  files: Files,
  zone: ZoneMembers,
  entryOf: (at: number, visitId: string) => Partial<VisitCompletion> | null,
  about: Partial<Completion> = {},
): Completion {
  const { plan, revision } = JSON.parse(textOf(files, "plan.json"));
  return {
    format: "boughline-completion",
    version: 1,
    appVersion: "0.1.0",
    planId: plan,
    revision,
    zoneId: zone.zone,
    reportId: `r-${zone.zone}`,
    exportedAt: "2026-11-10T16:00:00Z",
    who: "R. Alder",
    crewHours: 8,
    notes: "",
    visits: zone.visit_ids.flatMap((visitId, at) => {
      const said = entryOf(at, visitId);
      if (said === null) return [];
      const entry: VisitCompletion = {
        visitId,
        treeId: visitId.slice(0, visitId.lastIndexOf("/v")),
        outcome: "done",
        reason: null,
        date: isoDate("2026-11-10"),
        who: "R. Alder",
        crownBaseM: null,
        headroomM: null,
        doseShare: null,
        notes: "",
        photos: [],
        recordedAt: "2026-11-10T15:00:00Z",
      };
      return [{ ...entry, ...said }];
    }),
    addedTrees: [],
    hazards: [],
    ...about,
  };
}

/** Lines of a text by the id that `idOf` finds in each; for comparing what is the same byte for byte. */
export const linesById = (text: string, idOf: (line: string) => string | null): Map<string, string[]> => {
  const lines = new Map<string, string[]>();
  for (const line of text.split("\n")) {
    const id = idOf(line);
    if (id !== null) lines.set(id, [...(lines.get(id) ?? []), line.replace(/,$/, "")]);
  }
  return lines;
};
