import type { ConflictRecord } from "../model/conflict.ts";
import type { Prescription } from "../model/prescription.ts";
import { CONFLICT_KINDS, CREWS, URGENCIES } from "../model/terms.ts";
import { rounded } from "./bough-properties.ts";

/** Counts of some of a plan's trees: plain data, made where the trees are planned and added up in their order. */
export interface PartCounts {
  readonly trees: number;
  /** By the order of `CONFLICT_KINDS`, `URGENCIES` and `CREWS`. */
  readonly conflictsByKind: readonly number[];
  readonly treesByUrgency: readonly number[];
  readonly nextVisitsByCrew: readonly number[];
  readonly overdue: number;
  readonly referred: readonly string[];
  readonly visits: number;
  /** Hours of each next visit, in tree order: sums of fractions depend on their order. */
  readonly nextHours: Float64Array;
}

/** {@link PartCounts} of some trees. */
export function partCounts(
  trees: number,
  conflicts: readonly ConflictRecord[],
  prescriptions: readonly Prescription[],
): PartCounts {
  const next = prescriptions.flatMap(({ visits }) => visits.filter(({ number }) => number === 1));
  return {
    trees,
    conflictsByKind: tallyOf(CONFLICT_KINDS, conflicts, ({ kind }) => kind),
    treesByUrgency: tallyOf(URGENCIES, prescriptions, ({ urgency }) => urgency),
    nextVisitsByCrew: tallyOf(CREWS, next, ({ crew }) => crew),
    overdue: prescriptions.filter(({ overdue }) => overdue).length,
    referred: prescriptions.flatMap(({ refer }) => (refer === null ? [] : [refer.code])),
    visits: prescriptions.reduce((sum, { visits }) => sum + visits.length, 0),
    nextHours: Float64Array.from(next, ({ hours }) => hours),
  };
}

/** How many there are of what is not counted tree by tree. */
export interface OtherCounts {
  readonly surroundings: number;
  readonly sight_areas: number;
  readonly zones: number;
  readonly findings: number;
}

/** The counts of `plan.json`. */
export type PlanCounts = ReturnType<PlanCounter["counts"]>;

/** Adds up the counts of a plan's parts, in tree order. */
export class PlanCounter {
  #trees = 0;
  readonly #conflictsByKind = CONFLICT_KINDS.map(() => 0);
  readonly #treesByUrgency = URGENCIES.map(() => 0);
  readonly #nextVisitsByCrew = CREWS.map(() => 0);
  #overdue = 0;
  #referred = 0;
  readonly #reasons = new Map<string, number>();
  #visits = 0;
  #nextHours = 0;

  add(part: PartCounts): void {
    this.#trees += part.trees;
    addEach(this.#conflictsByKind, part.conflictsByKind);
    addEach(this.#treesByUrgency, part.treesByUrgency);
    addEach(this.#nextVisitsByCrew, part.nextVisitsByCrew);
    this.#overdue += part.overdue;
    this.#referred += part.referred.length;
    for (const code of part.referred) this.#reasons.set(code, (this.#reasons.get(code) ?? 0) + 1);
    this.#visits += part.visits;
    for (const hours of part.nextHours) this.#nextHours += hours;
  }

  counts({ surroundings, sight_areas, zones, findings }: OtherCounts) {
    return {
      trees: this.#trees,
      surroundings,
      sight_areas,
      conflicts: this.#conflictsByKind.reduce((sum, count) => sum + count, 0),
      conflicts_by_kind: named(CONFLICT_KINDS, this.#conflictsByKind),
      trees_by_urgency: named(URGENCIES, this.#treesByUrgency),
      overdue: this.#overdue,
      referred: this.#referred,
      referred_by_reason: Object.fromEntries([...this.#reasons].sort(([one], [other]) => (one < other ? -1 : 1))),
      visits: this.#visits,
      next_visits_by_crew: named(CREWS, this.#nextVisitsByCrew),
      next_visit_hours: rounded(this.#nextHours, 1),
      zones,
      findings,
    };
  }
}

function tallyOf<K extends string, T>(keys: readonly K[], items: readonly T[], keyOf: (item: T) => K): number[] {
  const counts = keys.map(() => 0);
  for (const item of items) counts[keys.indexOf(keyOf(item))]! += 1;
  return counts;
}

function addEach(sums: number[], more: readonly number[]): void {
  for (let at = 0; at < sums.length; at += 1) sums[at]! += more[at]!;
}

const named = <K extends string>(keys: readonly K[], counts: readonly number[]): Record<K, number> =>
  Object.fromEntries(keys.map((key, at) => [key, counts[at]!])) as Record<K, number>;
