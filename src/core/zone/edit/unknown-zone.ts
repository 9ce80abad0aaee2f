import type { Outcome } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";

/** The refusal of an edit of a zone that is not there. */
export const unknownZone = (zoneId: string): Outcome => ({
  refused: [
    zoneFinding({
      code: "unknown-zone",
      severity: "error",
      zoneId,
      reason: `There is no zone ${zoneId.slice(0, 40)}.`,
      whatToDo: "Choose one of the zones of the plan.",
    }),
  ],
});
