import type { Zone } from "../../model/zone.ts";
import { unknownZone } from "./unknown-zone.ts";
import type { EditOf } from "./zone-edit.ts";
import type { Outcome } from "./zone-edit-result.ts";

/** A zone locked or unlocked, in whatever state; nothing else of it changes. */
export function lockZone(zones: readonly Zone[], { zoneId, isLocked }: EditOf<"lock">): Outcome {
  const zone = zones.find((one) => one.zoneId === zoneId);
  if (zone === undefined) return unknownZone(zoneId);
  if ((zone.isLocked === true) === isLocked) return { zones, findings: [] };
  const { isLocked: _isLocked, ...open } = zone;
  return {
    zones: zones.map((one) => (one === zone ? { ...open, ...(isLocked ? { isLocked } : {}) } : one)),
    findings: [],
  };
}
