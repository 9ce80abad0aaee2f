import { measuredAfterWork } from "./measured-after-work.ts";
import type { Plan } from "./model/plan.ts";
import type { ArboristWord } from "./model/word.ts";
import { wordsInForce } from "./model/words-in-force.ts";
import type { RecordInput, RecordPreview } from "./plan/record/record-preview.ts";
import { statesOfRecord } from "./plan/record/states-of-record.ts";
import { takeIntoRecord } from "./plan/record/take-record.ts";
import { workFindings } from "./plan/record/work-findings.ts";
import type { WorkRecord } from "./plan/record/work-record.ts";
import { zonesAfterWork } from "./plan/record/zones-after-work.ts";
import { wordFindings } from "./plan/word/word-findings.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { hoursOfCrew, zoneSettings } from "./zone/zone-settings.ts";

/** A plan with work recorded in it. */
export interface RecordedWork {
  readonly plan: Plan;
  readonly record: WorkRecord;
  /** Trees whose figures are new, in plan order: those reported, and those whose view they opened. */
  readonly changedTreeIds: readonly string[];
}

/**
 * The next revision of a plan, with what a preview shows as `take`. Trees that were reported are measured, prescribed for and dated anew from the
 * later of the plan's as-of date and the day of their last work; so are trees whose hazard ended or began because a view was opened. All other
 * trees stay as they are. `words` are what arborists said of any. Throws RangeError for a preview of another plan or revision.
 */
export function recordWork(
  input: Pick<RecordInput, "plan" | "record">,
  preview: RecordPreview,
  revision: number,
  surroundings: Surroundings,
  standard: Standard,
  words: readonly ArboristWord[] = [],
): RecordedWork {
  const { plan } = input;
  const { record, treeIds } = takeIntoRecord(plan, input.record, preview, revision);
  const rowOf = new Map(plan.trees.map((tree, row) => [tree.id, row]));
  const reported = treeIds.flatMap((id) => rowOf.get(id) ?? []);
  const states = statesOfRecord(record);
  const firstSeen = firstSeenOf(plan, record);
  const measured = measuredAfterWork(
    ...([{ ...plan, revision }, reported, states, firstSeen, surroundings, standard] as const),
    wordsInForce(words),
  );
  const { plan: next, rows } = measured;
  const settings = zoneSettings(plan.options.zoning ?? {}, standard);
  const zones = zonesAfterWork(plan.zones, next, record, ({ hours, crew }) =>
    hoursOfCrew(hours, crew, settings, standard),
  );
  return {
    plan: {
      ...next,
      zones,
      findings: [
        ...plan.findings.filter(({ code }) => !isOfWork(code) && !code.startsWith("word-")),
        ...workFindings(next, record),
        ...wordFindings(next, words),
      ],
    },
    record,
    changedTreeIds: plan.trees.flatMap(({ id }, row) => (rows.has(row) ? [id] : [])),
  };
}

const isOfWork = (code: string): boolean => code.startsWith("work-");

/** Since when the conflicts of a plan and of its record are known. */
export function firstSeenOf(plan: Plan, record: WorkRecord): Map<string, IsoDate> {
  const firstSeen = new Map<string, IsoDate>(plan.conflicts.map((one) => [one.conflictId, one.firstSeen]));
  for (const base of record.bases) {
    for (const [conflictId, since] of Object.entries(base.firstSeen)) firstSeen.set(conflictId, since);
  }
  return firstSeen;
}
