import type { Plan } from "../../core/model/plan.ts";
import { inOrderOfWork } from "../../core/plan/record/order-of-reports.ts";
import type { RecordedVisit, WorkRecord } from "../../core/plan/record/work-record.ts";
import type { IsoDate } from "../../core/units/calendar.ts";

/** What a row means that leaves its visit or its zone out. */
export interface VisitMeant {
  /**
   * The visit of a tree that was open on a date: one that the record has as closed on that day or a later one, so that a table handed in again says
   * the same again, else the next one of the plan, else the last that the record has.
   */
  visitOn(treeId: string, date: IsoDate): string;
  /** The zone of a visit: where the plan has it, else where it was reported from; null where it is in none. */
  zoneOf(visitId: string): string | null;
  /** Whether the plan asks for a visit. */
  isPlanned(visitId: string): boolean;
}

/** Looks rows of a table up in a plan and in what is recorded of it. */
export function visitMeant(plan: Plan, record: WorkRecord): VisitMeant {
  const next = new Map(plan.prescriptions.map(({ treeId, visits }) => [treeId, visits[0]?.visitId ?? null]));
  const planned = new Set(plan.prescriptions.flatMap(({ visits }) => visits.map(({ visitId }) => visitId)));
  const zones = new Map(plan.zones.flatMap(({ zoneId, visitIds }) => visitIds.map((id) => [id, zoneId] as const)));
  const known = new Set(plan.zones.map(({ zoneId }) => zoneId));
  const recorded = new Map<string, RecordedVisit[]>();
  const reportedFrom = new Map<string, string>();
  for (const visit of inOrderOfWork(record.visits.filter(({ replacedIn }) => replacedIn === null))) {
    const { treeId, visitId } = visit.entry;
    const own = recorded.get(treeId);
    if (own === undefined) recorded.set(treeId, [visit]);
    else own.push(visit);
    reportedFrom.set(visitId, visit.zoneId);
  }
  return {
    visitOn(treeId, date) {
      const own = recorded.get(treeId) ?? [];
      const closed = own.find(({ entry }) => entry.date >= date && isClosed(entry));
      return closed?.entry.visitId ?? next.get(treeId) ?? own.at(-1)?.entry.visitId ?? `${treeId}/v1`;
    },
    zoneOf(visitId) {
      const from = reportedFrom.get(visitId);
      return zones.get(visitId) ?? (from !== undefined && known.has(from) ? from : null);
    },
    isPlanned: (visitId) => planned.has(visitId),
  };
}

const isClosed = ({ outcome, reason }: RecordedVisit["entry"]): boolean => outcome === "done" || reason === "tree-gone";
