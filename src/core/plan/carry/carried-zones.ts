import type { Finding } from "../../model/finding.ts";
import type { Plan } from "../../model/plan.ts";
import type { Zone } from "../../model/zone.ts";
import { asksForTheSame, visitsById } from "../record/visits-by-id.ts";
import { carryFinding } from "./carry-finding.ts";
import { type Rename, renamedPart } from "./rename-ids.ts";

/** The zones of a plan with their trees and visits under new ids; `id`, name, state, order and all else stay. */
export const renamedZones = (zones: readonly Zone[], rename: Rename): Zone[] =>
  zones.map((zone) => ({
    ...zone,
    treeIds: zone.treeIds.map(rename),
    visitIds: zone.visitIds.map((visitId) => renamedPart(visitId, rename)),
  }));

/**
 * Zones that a crew has been told of and whose visits the new plan wants otherwise, or not at all: one finding a zone. `before` are the earlier plan's
 * prescriptions under the new ids.
 */
export function zoneFindings(
  zones: readonly Zone[],
  before: Plan["prescriptions"],
  now: Plan["prescriptions"],
): Finding[] {
  const [was, is] = [visitsById(before), visitsById(now)];
  return zones.flatMap((zone): Finding[] => {
    if (zone.state !== "issued" && zone.state !== "under-way") return [];
    const gone = zone.visitIds.filter((id) => was.has(id) && !is.has(id));
    const other = zone.visitIds.filter((id) => {
      const [then, next] = [was.get(id), is.get(id)];
      return then !== undefined && next !== undefined && !asksForTheSame(then.visit, next.visit);
    });
    if (gone.length === 0 && other.length === 0) return [];
    const parts = [
      ...(gone.length === 0 ? [] : [`${gone.length} not at all`]),
      ...(other.length === 0 ? [] : [`${other.length} otherwise`]),
    ];
    return [
      carryFinding(
        "carry-zone-outdated",
        "warning",
        "plan",
        zone.zoneId,
        [...gone, ...other].join(", "),
        `The crew of "${zone.name}" has a packet of an earlier revision; of its ${zone.visitIds.length} visits the plan now wants ${parts.join(" and ")}.`,
        "Make its packet anew and give it to the crew in place of the old one.",
      ),
    ];
  });
}
