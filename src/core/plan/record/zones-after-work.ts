import type { Plan } from "../../model/plan.ts";
import type { Visit } from "../../model/prescription.ts";
import type { ZoneState } from "../../model/terms.ts";
import type { Zone } from "../../model/zone.ts";
import type { WorkRecord } from "./work-record.ts";

/**
 * The zones with the work that is still open in them. A zone that something was reported of is `under-way` while visits are open in it and `done` when
 * none is; its name, area, walk and closure stay those of the whole. Visits that the plan no longer asks for leave every zone, and a draft of which
 * nothing is left goes. A visit that is taken back comes last in its zone.
 */
export function zonesAfterWork(
  zones: readonly Zone[],
  plan: Pick<Plan, "prescriptions">,
  record: WorkRecord,
  hoursOf: (visit: Visit) => number,
): Zone[] {
  const open = new Map(
    plan.prescriptions.flatMap(({ visits }) => visits.map((visit) => [visit.visitId, visit] as const)),
  );
  const reported = new Map<string, string[]>();
  const inForce = new Set<string>();
  for (const { entry, zoneId, replacedIn } of record.visits) {
    const own = reported.get(zoneId);
    if (own === undefined) reported.set(zoneId, [entry.visitId]);
    else own.push(entry.visitId);
    if (replacedIn === null) inForce.add(zoneId).add(entry.visitId);
  }
  const placed = new Set(zones.flatMap(({ visitIds }) => visitIds));
  return zones.flatMap((zone): Zone[] => {
    const mine = reported.get(zone.zoneId) ?? [];
    const back = [...new Set(mine)].filter((id) => open.has(id) && !placed.has(id));
    const visitIds = [...zone.visitIds, ...back].filter((id) => open.has(id));
    const isReported = inForce.has(zone.zoneId) || zone.visitIds.some((id) => inForce.has(id));
    if (visitIds.length === 0 && !isReported && zone.state === "draft") return [];
    const state = stateOf(zone.state, visitIds.length, isReported, mine.length > 0);
    const visits = visitIds.map((id) => open.get(id)!);
    const hours = Math.round(visits.reduce((sum, visit) => sum + hoursOf(visit), 0) * 100) / 100;
    const isSame = visitIds.length === zone.visitIds.length && back.length === 0;
    if (isSame && !isReported && state === zone.state) return [zone];
    return [{ ...zone, state, visitIds, treeIds: visits.map(({ treeId }) => treeId), hours }];
  });
}

function stateOf(before: ZoneState, left: number, isReported: boolean, wasReported: boolean): ZoneState {
  if (isReported) return left === 0 ? "done" : "under-way";
  // All that was reported of it was taken back.
  return wasReported && (before === "under-way" || before === "done") ? "issued" : before;
}
