import type { Zone } from "../../model/zone.ts";
import type { Stop } from "../stops.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";
import { zoneWith } from "./zone-with.ts";

/** Zones without some stops: those that held some made anew, those left empty gone, with a finding for each of these. */
export function withoutTrees(
  desk: ZoneDesk,
  zones: readonly Zone[],
  stops: readonly Stop[],
): { readonly zones: readonly Zone[]; readonly findings: readonly ZoneEditFinding[] } {
  const gone = new Set(stops.map(({ visit }) => visit.visitId));
  const findings: ZoneEditFinding[] = [];
  const left = zones.flatMap((zone): Zone[] => {
    if (!zone.visitIds.some((id) => gone.has(id))) return [zone];
    const rest = stopsOf(desk, zone).filter(({ visit }) => !gone.has(visit.visitId));
    if (rest.length > 0) return [zoneWith(desk, zone, rest)];
    findings.push(
      zoneFinding({
        code: "zone-emptied",
        severity: "info",
        zoneId: zone.zoneId,
        value: zone.name,
        reason: `Zone ${zone.name} has no trees left and is gone.`,
        whatToDo: "Undo to have it back.",
      }),
    );
    return [];
  });
  return { zones: left, findings };
}
