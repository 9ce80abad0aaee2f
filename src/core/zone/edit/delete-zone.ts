import type { Zone } from "../../model/zone.ts";
import { freedFinding } from "./freed-finding.ts";
import { guardFinding } from "./guard-finding.ts";
import { unknownZone } from "./unknown-zone.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { EditOf } from "./zone-edit.ts";
import type { Outcome } from "./zone-edit-result.ts";

/** Zones without one of them; its trees are in none afterwards, and the finding says which. */
export function deleteZone(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"delete">): Outcome {
  const zone = zones.find(({ zoneId }) => zoneId === edit.zoneId);
  if (zone === undefined) return unknownZone(edit.zoneId);
  const guard = guardFinding([zone], edit);
  if (guard !== null) return { refused: [guard] };
  const stops = stopsOf(desk, zone);
  return {
    zones: zones.filter((one) => one !== zone),
    findings: stops.length === 0 ? [] : [freedFinding(stops)],
  };
}
