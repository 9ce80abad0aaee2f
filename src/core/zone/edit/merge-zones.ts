import type { AskedWindow, Zone } from "../../model/zone.ts";
import { dayNumber } from "../../units/calendar.ts";
import { commonDays } from "../day.ts";
import { guardFinding } from "./guard-finding.ts";
import { type ShareFault, shareFault } from "./share-fault.ts";
import { unknownZone } from "./unknown-zone.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { EditOf } from "./zone-edit.ts";
import type { Outcome, ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";
import { zoneRemarks } from "./zone-remarks.ts";
import { zoneWith } from "./zone-with.ts";

/** The first of some zones with the work of all; it keeps id, name and dates, the others go. Refused whole where their work cannot be one zone. */
export function mergeZones(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"merge">): Outcome {
  const merged: Zone[] = [];
  for (const zoneId of new Set(edit.zoneIds)) {
    const zone = zones.find((one) => one.zoneId === zoneId);
    if (zone === undefined) return unknownZone(zoneId);
    merged.push(zone);
  }
  const first = merged[0];
  if (first === undefined || merged.length < 2) return { refused: [tooFew(first ?? null)] };
  const guard = guardFinding(merged, edit);
  if (guard !== null) return { refused: [guard] };
  const stops = merged.flatMap((zone) => stopsOf(desk, zone));
  if (stops.length === 0) return { refused: [tooFew(first)] };
  const fault = shareFault(stops, { mayRaiseCrew: edit.allow?.includes("raise-crew") === true, asked: null });
  if (fault !== null) return { refused: [cannotMerge(fault, merged, edit)] };
  const asked = first.askedWindow ?? null;
  const keepsDates = asked === null || isAllowed(asked, commonDays(stops));
  const next = zoneWith(desk, { ...first, askedWindow: keepsDates ? asked : null }, stops);
  const gone = new Set(merged.slice(1));
  return {
    zones: zones.filter((zone) => !gone.has(zone)).map((zone) => (zone === first ? next : zone)),
    findings: [...(keepsDates ? [] : [datesTakenBack(first)]), ...zoneRemarks(desk, next, first)],
  };
}

const isAllowed = (asked: AskedWindow, [firstDay, lastDay]: readonly [number, number]): boolean =>
  dayNumber(asked.start) <= lastDay && dayNumber(asked.end) >= firstDay;

const tooFew = (zone: Zone | null): ZoneEditFinding =>
  zoneFinding({
    code: "too-few-zones",
    severity: "error",
    zoneId: zone?.zoneId ?? null,
    reason: "It takes two zones with work to merge.",
    whatToDo: "Choose another zone beside this one.",
  });

const REASONS: Readonly<Record<ShareFault, string>> = {
  "no-common-day": "there is no day on which all of their trees may be worked",
  "owners-crew": "work of the line owner's crew keeps to itself",
  "crews-apart": "their crews are more than one step apart",
  "outside-asked-window": "the dates set for one of them leave no day",
};

function cannotMerge(fault: ShareFault, merged: readonly Zone[], edit: EditOf<"merge">): ZoneEditFinding {
  return zoneFinding({
    code: fault,
    severity: "error",
    zoneId: merged[0]!.zoneId,
    treeIds: [],
    value: merged.map(({ crew }) => crew).join(", "),
    reason: `${merged.map(({ name }) => name).join(" and ")} cannot be one zone: ${REASONS[fault]}.`,
    whatToDo:
      fault === "crews-apart"
        ? "Have the more restricted crew do all of it, or leave them apart."
        : "Leave them apart.",
    mends:
      fault === "crews-apart"
        ? [
            {
              label: "Merge, with the more restricted crew",
              edit: { ...edit, allow: [...(edit.allow ?? []), "raise-crew"] },
              when: "instead",
            },
          ]
        : [],
  });
}

const datesTakenBack = (zone: Zone): ZoneEditFinding =>
  zoneFinding({
    code: "asked-window-taken-back",
    severity: "warning",
    zoneId: zone.zoneId,
    reason:
      "The dates set for the zone leave no day for the work that came in; it has the dates its visits allow again.",
    whatToDo: "Set dates anew.",
  });
