import type { Visit } from "../../model/prescription.ts";
import type { Tree } from "../../model/trees.ts";
import type { EarlierVisits, RecordInput } from "./record-preview.ts";
import { visitsById } from "./visits-by-id.ts";
import type { RecordedVisit } from "./work-record.ts";

/** What a preview looks things up in. */
export interface KnownWork {
  readonly input: RecordInput;
  readonly trees: ReadonlyMap<string, Tree>;
  /** Visits of the plan as it stands. */
  readonly visits: EarlierVisits;
  /** Recorded entries in force, by visit. */
  readonly recorded: ReadonlyMap<string, readonly RecordedVisit[]>;
  /** Visits of each zone as it stands. */
  readonly zones: ReadonlyMap<string, ReadonlySet<string>>;
}

export function knownWork(input: RecordInput): KnownWork {
  const { plan, record } = input;
  const recorded = new Map<string, RecordedVisit[]>();
  for (const visit of record.visits) {
    if (visit.replacedIn !== null) continue;
    const list = recorded.get(visit.entry.visitId);
    if (list === undefined) recorded.set(visit.entry.visitId, [visit]);
    else list.push(visit);
  }
  return {
    input,
    trees: new Map(plan.trees.map((tree) => [tree.id, tree])),
    visits: visitsById(plan.prescriptions),
    recorded,
    zones: new Map(plan.zones.map((zone) => [zone.zoneId, new Set(zone.visitIds)])),
  };
}

/** A visit with the years its option lasts, as some revision planned it. */
export type FoundVisit = { readonly visit: Visit; readonly lastsYears: number | null };
