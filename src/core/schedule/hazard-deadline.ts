import type { ConflictRecord } from "../model/conflict.ts";
import type { Standard } from "../standard/standard.ts";
import { addDays, type IsoDate } from "../units/calendar.ts";

/** The earliest deadline of the hazards among conflicts; null without one. */
export function hazardDeadline(
  conflicts: readonly Pick<ConflictRecord, "hazard" | "firstSeen">[],
  standard: Standard,
): IsoDate | null {
  let earliest: IsoDate | null = null;
  for (const { hazard, firstSeen } of conflicts) {
    if (hazard === null) continue;
    const deadline = addDays(firstSeen, standard.deadlines[hazard]);
    if (earliest === null || deadline < earliest) earliest = deadline;
  }
  return earliest;
}
