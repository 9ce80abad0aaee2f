import { ZONE_STATES, type ZoneState } from "../../model/terms.ts";
import type { Zone } from "../../model/zone.ts";
import { unknownZone } from "./unknown-zone.ts";
import type { EditOf } from "./zone-edit.ts";
import type { Outcome } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";

/**
 * A zone in another state. Forward one step at a time, so that nothing is done that was never issued; back as far as asked, with the remark of
 * what that means. Locked zones change their state like others. What was done at the trees is told by completions, not by the state.
 */
export function setZoneState(zones: readonly Zone[], edit: EditOf<"set-state">): Outcome {
  const zone = zones.find(({ zoneId }) => zoneId === edit.zoneId);
  if (zone === undefined) return unknownZone(edit.zoneId);
  const { zoneId, name } = zone;
  const [from, to] = [ZONE_STATES.indexOf(zone.state), ZONE_STATES.indexOf(edit.state)];
  if (from === to) return { zones, findings: [] };
  if (to > from + 1) {
    const between = ZONE_STATES.slice(from + 1, to + 1);
    return {
      refused: [
        zoneFinding({
          code: "state-skipped",
          severity: "error",
          zoneId,
          value: `${zone.state} to ${edit.state}`,
          reason: `Zone ${name} is ${zone.state}: before ${edit.state} comes ${between.slice(0, -1).join(", then ")}.`,
          whatToDo: "Go through the states in between.",
          mends: [
            {
              label: `Set it to ${between.join(", then ")}`,
              edit: { kind: "sequence", edits: between.map((state) => ({ kind: "set-state", zoneId, state })) },
              when: "instead",
            },
          ],
        }),
      ],
    };
  }
  return {
    zones: zones.map((one) => (one === zone ? { ...zone, state: edit.state } : one)),
    findings:
      to > from
        ? []
        : [
            zoneFinding({
              code: "state-set-back",
              severity: "warning",
              zoneId,
              value: `${zone.state} to ${edit.state}`,
              reason: BACK[zone.state],
              whatToDo: "Tell the crew.",
            }),
          ],
  };
}

const BACK: Readonly<Record<ZoneState, string>> = {
  draft: "",
  issued: "A crew has the packet of this zone; it is not valid any more.",
  "under-way": "Work has begun in this zone; what was done so far is told by completions only.",
  done: "This zone was closed; what was done in it stays as recorded.",
};
