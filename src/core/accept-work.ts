import { measuredAfterWork } from "./measured-after-work.ts";
import type { Plan } from "./model/plan.ts";
import type { ArboristWord } from "./model/word.ts";
import { wordsInForce } from "./model/words-in-force.ts";
import { type CheckPreview, takeChecks } from "./plan/acceptance/preview-checks.ts";
import { openReworks } from "./plan/acceptance/with-rework.ts";
import { statesOfRecord } from "./plan/record/states-of-record.ts";
import type { WorkRecord } from "./plan/record/work-record.ts";
import { zonesAfterWork } from "./plan/record/zones-after-work.ts";
import { firstSeenOf, type RecordedWork } from "./record-work.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import { hoursOfCrew, zoneSettings } from "./zone/zone-settings.ts";

/**
 * The next revision of a plan, with the checks that a preview shows as `take`. A tree whose work did not pass gets a new visit, in the zone it was worked in; where a later
 * check passed after all, that visit goes again. Nothing else changes.
 */
export function acceptWork(
  plan: Plan,
  before: WorkRecord,
  preview: readonly CheckPreview[],
  revision: number,
  surroundings: Surroundings,
  standard: Standard,
  words: readonly ArboristWord[] = [],
): RecordedWork {
  const { record, treeIds } = takeChecks(before, preview, revision);
  const rows = plan.trees.flatMap(({ id }, row) => (treeIds.has(id) && isReopened(id, before, record) ? [row] : []));
  const states = statesOfRecord(record);
  const measured = measuredAfterWork(
    { ...plan, revision },
    rows,
    states,
    firstSeenOf(plan, record),
    surroundings,
    standard,
    wordsInForce(words),
  );
  const settings = zoneSettings(plan.options.zoning ?? {}, standard);
  const zones = zonesAfterWork(withReworks(plan, measured.plan, record), measured.plan, record, ({ hours, crew }) =>
    hoursOfCrew(hours, crew, settings, standard),
  );
  return {
    plan: { ...measured.plan, zones },
    record,
    changedTreeIds: plan.trees.flatMap(({ id }, row) => (measured.rows.has(row) ? [id] : [])),
  };
}

/** Whether a tree has a rework to do now and had none before, or the other way round. */
const isReopened = (treeId: string, before: WorkRecord, record: WorkRecord): boolean =>
  openReworks(before).get(treeId)?.check.visitId !== openReworks(record).get(treeId)?.check.visitId ||
  openReworks(record).has(treeId);

/** The zones with the visits that make good what did not pass, last in the zone the work was done in. */
function withReworks(plan: Plan, next: Plan, record: WorkRecord): Plan["zones"] {
  const placed = new Set(plan.zones.flatMap(({ visitIds }) => visitIds));
  const visitOf = new Map(next.prescriptions.map(({ treeId, visits }) => [treeId, visits[0]]));
  const added = new Map<string, string[]>();
  for (const [treeId, { check }] of openReworks(record)) {
    const visit = visitOf.get(treeId);
    if (visit === undefined || placed.has(visit.visitId)) continue;
    added.set(check.zoneId, [...(added.get(check.zoneId) ?? []), visit.visitId]);
  }
  return plan.zones.map((zone) => {
    const own = added.get(zone.zoneId);
    return own === undefined ? zone : { ...zone, visitIds: [...zone.visitIds, ...own] };
  });
}
