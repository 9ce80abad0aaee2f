import type { Zone } from "../../model/zone.ts";
import { isOpen } from "./chosen-trees.ts";
import type { ZoneEdit } from "./zone-edit.ts";
import type { ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";

/** Why an edit may not change the work of some zones, with what opens them; null where it may. A zone that is done offers nothing. */
export function guardFinding(zones: readonly Zone[], edit: ZoneEdit): ZoneEditFinding | null {
  const closed = zones.filter((zone) => !isOpen(zone));
  const worst =
    closed.find(({ state }) => state === "done") ?? closed.find(({ state }) => state !== "draft") ?? closed[0];
  if (worst === undefined) return null;
  const isDone = worst.state === "done";
  const names = closed.map(({ name }) => name).join(", ");
  return zoneFinding({
    code: worst.state === "draft" ? "zone-locked" : `zone-${worst.state}`,
    severity: "error",
    zoneId: worst.zoneId,
    treeIds: [],
    value: names,
    reason: reasonOf(worst, closed.length),
    whatToDo: isDone
      ? "Leave it as the record of what was done; set its state back first if it was closed by mistake."
      : "Open it first, and give the crew a new packet if it has one.",
    mends: isDone
      ? []
      : [
          {
            label: worst.state === "draft" ? "Unlock and go on" : "Withdraw from the crew and go on",
            edit: { kind: "sequence", edits: [...closed.flatMap(opening), edit] },
            when: "instead",
          },
        ],
  });
}

function reasonOf({ name, state }: Zone, count: number): string {
  const others = count === 1 ? "" : `, as ${count === 2 ? "is" : "are"} ${count - 1} more`;
  if (state === "draft") return `Zone ${name} is locked${others}.`;
  if (state === "issued") return `Zone ${name} is issued: a crew has its packet${others}.`;
  return state === "under-way" ? `Work in zone ${name} is under way${others}.` : `Zone ${name} is done${others}.`;
}

/** The edits that open a zone which is not done. */
export function opening({ zoneId, state, isLocked }: Zone): ZoneEdit[] {
  return [
    ...(isLocked === true ? [{ kind: "lock", zoneId, isLocked: false } as const] : []),
    ...(state === "draft" ? [] : [{ kind: "set-state", zoneId, state: "draft" } as const]),
  ];
}
