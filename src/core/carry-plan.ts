import { measuredAfterWork } from "./measured-after-work.ts";
import type { Plan } from "./model/plan.ts";
import type { Tree } from "./model/trees.ts";
import type { ArboristWord } from "./model/word.ts";
import { wordsInForce } from "./model/words-in-force.ts";
import { type EarlierConflicts, earlierConflicts, firstSeenOf } from "./plan/carry/carried-first-seen.ts";
import { carriedRecord } from "./plan/carry/carried-record.ts";
import { renamedZones, zoneFindings } from "./plan/carry/carried-zones.ts";
import { grownFindings } from "./plan/carry/grown-findings.ts";
import { matchFindings } from "./plan/carry/match-findings.ts";
import { olderWordFindings } from "./plan/carry/older-word-findings.ts";
import { renamedThings } from "./plan/carry/same-things.ts";
import { isSameTree, type TreeMatches } from "./plan/carry/tree-match.ts";
import { presentName, treeNames } from "./plan/carry/tree-names.ts";
import { statesOfRecord } from "./plan/record/states-of-record.ts";
import { workFindings } from "./plan/record/work-findings.ts";
import type { WorkRecord } from "./plan/record/work-record.ts";
import { zonesAfterWork } from "./plan/record/zones-after-work.ts";
import { treeBeforeWords } from "./plan/word/tree-as-measured.ts";
import { wordFindings } from "./plan/word/word-findings.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { buildZones } from "./zone/build-zones.ts";
import { hoursOfCrew, zoneSettings } from "./zone/zone-settings.ts";

/** A plan made of a new inventory, new surroundings or a new standard, and the one that it carries on. */
export interface CarryInput {
  /** As the stages made it, knowing nothing of the earlier one but `firstSeen`. */
  readonly plan: Plan;
  readonly previous: Plan;
  readonly record: WorkRecord;
  /** What arborists said, under the new ids. */
  readonly words: readonly ArboristWord[];
  readonly matches: TreeMatches;
  readonly surroundings: Surroundings;
  readonly standard: Standard;
  /** Day on which the new inventory's sizes were measured, at the latest. */
  readonly measuredOn: IsoDate;
}

export interface CarriedPlan {
  readonly plan: Plan;
  readonly record: WorkRecord;
}

/**
 * The next revision of an earlier plan: its id and its zones with theirs, what crews recorded, and since when conflicts are known, all under the new
 * inventory's tree ids. Trees with recorded work are measured, prescribed for and dated as the work left them. Nothing recorded is lost: what belongs to
 * trees that are no more stays in the record and is told.
 */
export function carryPlan(input: CarryInput): CarriedPlan {
  const { previous, matches, standard, surroundings, measuredOn, words } = input;
  const { revision } = input.plan;
  const names = treeNames(matches, previous.trees, input.plan.trees, previous.revision);
  const rename = presentName(names, previous.revision);
  const plan: Plan = {
    ...input.plan,
    planId: previous.planId,
    options: {
      ...input.plan.options,
      ...(previous.options.zoning === undefined ? {} : { zoning: previous.options.zoning }),
    },
    trees: withFormerIds(input.plan.trees, previous.trees, matches),
  };
  const stays = new Set(matches.all.flatMap((one) => (isSameTree(one) ? [plan.trees[one.newRow!]!.id] : [])));
  const { record: carried, findings } = carriedRecord(
    input.record,
    names,
    plan.trees.map(treeBeforeWords),
    stays,
    revision,
    measuredOn,
  );

  const idOf = (id: string): string | null => (stays.has(rename(id)) ? rename(id) : null);
  const known = earlierConflicts(previous.conflicts, idOf, renamedThings(previous.surroundings, surroundings.features));
  const states = statesOfRecord(carried);
  const rowOf = new Map(plan.trees.map(({ id }, row) => [id, row]));
  const worked = carried.visits.flatMap(({ entry, replacedIn }) => {
    const row = replacedIn === null && stays.has(entry.treeId) ? rowOf.get(entry.treeId) : undefined;
    return row === undefined ? [] : [row];
  });
  const measure = (of: Plan, rows: readonly number[], seen: ReadonlyMap<string, IsoDate>): Plan =>
    measuredAfterWork(
      ...([of, [...new Set(rows)].sort((a, b) => a - b), states, seen, surroundings, standard] as const),
      wordsInForce(words),
    ).plan;
  const seenBefore = new Map([...known].map(([id, { firstSeen }]) => [id, firstSeen]));
  const asWorked = measure(plan, worked, seenBefore);
  // Only now it is known what is a hazard as work left its tree.
  const isDatedOtherwise = (one: Plan["conflicts"][number]): boolean =>
    one.firstSeen !== firstSeenOf(one, known, plan.options.asOf);
  const dated = asWorked.conflicts.filter(isDatedOtherwise).map(({ treeRow }) => treeRow);
  const measured = dated.length === 0 ? asWorked : measure(asWorked, dated, firstSeenIn(asWorked, known));
  const record = withFirstSeen(carried, measured);

  const zones = zonesOf(measured, renamedZones(previous.zones, rename), record, standard);
  const before = previous.prescriptions.map((one) => ({
    ...one,
    visits: one.visits.map((visit) => ({ ...visit, treeId: rename(visit.treeId), visitId: visitIdOf(visit, rename) })),
  }));
  const treeBefore = (row: number): Tree | null => {
    const oldRow = matches.oldRowOf.get(row);
    return oldRow === undefined || !stays.has(plan.trees[row]!.id) ? null : previous.trees[oldRow]!;
  };
  return {
    record,
    plan: {
      ...measured,
      zones,
      findings: [
        ...measured.findings,
        ...matchFindings(matches, previous.trees, plan.trees),
        ...grownFindings(plan.trees),
        ...findings,
        ...zoneFindings(renamedZones(previous.zones, rename), before, measured.prescriptions),
        ...workFindings(measured, record),
        ...wordFindings(measured, words),
        ...olderWordFindings(plan.trees, treeBefore, wordsInForce(words), measuredOn),
      ],
    },
  };
}

/** Trees under another id than before keep those they bore. */
function withFormerIds(trees: readonly Tree[], old: readonly Tree[], { oldRowOf }: TreeMatches): Tree[] {
  return trees.map((tree, row) => {
    const oldRow = oldRowOf.get(row);
    if (oldRow === undefined) return tree;
    const { id, formerly = [] } = old[oldRow]!;
    const all = id === tree.id ? formerly : [...formerly, id];
    return all.length === 0 ? tree : { ...tree, formerly: all };
  });
}

const visitIdOf = ({ visitId, treeId }: { visitId: string; treeId: string }, rename: (id: string) => string): string =>
  rename(treeId) + visitId.slice(treeId.length);

/** Since when each conflict is known. */
function firstSeenIn(plan: Plan, known: EarlierConflicts): Map<string, IsoDate> {
  const seen = new Map([...known].map(([id, { firstSeen }]) => [id, firstSeen]));
  for (const one of plan.conflicts) seen.set(one.conflictId, firstSeenOf(one, known, plan.options.asOf));
  return seen;
}

/** The record's trees with what the plan says of their conflicts, so that work taken later counts from the same dates. */
function withFirstSeen(record: WorkRecord, { conflicts }: Plan): WorkRecord {
  const seen = new Map<string, Record<string, IsoDate>>();
  for (const { treeId, conflictId, firstSeen } of conflicts) {
    const own = seen.get(treeId) ?? {};
    own[conflictId] = firstSeen;
    seen.set(treeId, own);
  }
  return {
    ...record,
    bases: record.bases.map((base) =>
      base.replacedIn == null && seen.has(base.tree.id)
        ? { ...base, firstSeen: { ...base.firstSeen, ...seen.get(base.tree.id) } }
        : base,
    ),
  };
}

/** Zones a crew has, locked ones and drafts with what the plan still asks for; drafts take in what is new. None where the earlier plan had none. */
function zonesOf(plan: Plan, zones: Plan["zones"], record: WorkRecord, standard: Standard): Plan["zones"] {
  if (zones.length === 0) return [];
  const settings = zoneSettings(plan.options.zoning ?? {}, standard);
  const left = zonesAfterWork(zones, plan, record, ({ hours, crew }) => hoursOfCrew(hours, crew, settings, standard));
  return buildZones({ ...plan, zones: left }, standard);
}
