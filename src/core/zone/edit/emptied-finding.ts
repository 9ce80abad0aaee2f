import type { Zone } from "../../model/zone.ts";
import type { ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";

/** Says of a zone none of whose visits are in the plan any more that there is nothing to change. */
export const emptiedFinding = ({ zoneId, name }: Zone): ZoneEditFinding =>
  zoneFinding({
    code: "no-work-left",
    severity: "error",
    zoneId,
    value: name,
    reason: `None of the visits of zone ${name} are in the plan any more.`,
    whatToDo: "Delete the zone, or add trees to it.",
    mends: [{ label: "Delete the zone", edit: { kind: "delete", zoneId }, when: "instead" }],
  });
