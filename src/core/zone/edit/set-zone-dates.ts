import type { AskedWindow, Zone } from "../../model/zone.ts";
import { dateOfDay, dayNumber, type IsoDate, parseIsoDate } from "../../units/calendar.ts";
import { formatDate } from "../../units/format-date.ts";
import { commonDays } from "../day.ts";
import { emptiedFinding } from "./emptied-finding.ts";
import { guardFinding } from "./guard-finding.ts";
import { unknownZone } from "./unknown-zone.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { EditOf, ZoneEdit } from "./zone-edit.ts";
import type { Outcome, ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";
import { zoneRemarks } from "./zone-remarks.ts";
import { zoneWith } from "./zone-with.ts";

/**
 * A zone with other dates: narrower ones than its visits allow, never wider, and the day it is planned for, within them. The day may also be set
 * while a crew has the zone; a locked zone and one that is done keep their dates.
 */
export function setZoneDates(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"set-dates">): Outcome {
  const zone = zones.find(({ zoneId }) => zoneId === edit.zoneId);
  if (zone === undefined) return unknownZone(edit.zoneId);
  const isDayOnly = edit.askedWindow === undefined && zone.state !== "done";
  const guard = guardFinding([isDayOnly ? { ...zone, state: "draft" } : zone], edit);
  if (guard !== null) return { refused: [guard] };
  if (!isDayOnly && stopsOf(desk, zone).length === 0) return { refused: [emptiedFinding(zone)] };
  const fault = windowFault(desk, zone, edit);
  if (fault !== null) return { refused: [fault] };
  const next = edit.askedWindow === undefined ? zone : withWindow(desk, zone, edit.askedWindow);
  const planned = edit.plannedOn === undefined ? (next.plannedOn ?? null) : edit.plannedOn;
  const misplanned = edit.plannedOn == null ? null : dayFault(next, edit, edit.plannedOn);
  if (misplanned !== null) return { refused: [misplanned] };
  const { plannedOn: _plannedOn, ...rest } = next;
  const dated: Zone = planned === null ? rest : { ...rest, plannedOn: planned };
  const findings = isDayOnly ? [] : zoneRemarks(desk, dated, zone);
  return { zones: zones.map((one) => (one === zone ? dated : one)), findings };
}

function withWindow(desk: ZoneDesk, zone: Zone, askedWindow: AskedWindow | null): Zone {
  const next = zoneWith(desk, { ...zone, isHandOrdered: true, askedWindow }, stopsOf(desk, zone));
  const { isHandOrdered: _isHandOrdered, ...rest } = next;
  return zone.isHandOrdered === true ? next : rest;
}

function windowFault(desk: ZoneDesk, zone: Zone, edit: EditOf<"set-dates">): ZoneEditFinding | null {
  const asked = edit.askedWindow ?? null;
  if (asked === null) return null;
  const refused = refusal(zone, `${asked.start}/${asked.end}`);
  if (parseIsoDate(asked.start) === null || parseIsoDate(asked.end) === null)
    return refused("date-unreadable", "The dates are not two dates YYYY-MM-DD.", "Give dates as 2027-03-31.");
  if (asked.start > asked.end) {
    const mended: ZoneEdit = { ...edit, askedWindow: { start: asked.end, end: asked.start } };
    const reason = "The first date lies after the last.";
    return refused("dates-reversed", reason, "Exchange them.", ["Exchange the dates", mended]);
  }
  const [firstDay, lastDay] = commonDays(stopsOf(desk, zone));
  const start = Math.max(firstDay, dayNumber(asked.start));
  const end = Math.min(lastDay, dayNumber(asked.end));
  if (start === dayNumber(asked.start) && end === dayNumber(asked.end)) return null;
  const allowed = `${formatDate(dateOfDay(firstDay))} to ${formatDate(dateOfDay(lastDay))}`;
  const reason = `The visits of the zone allow ${allowed} only.`;
  const whatToDo = "Choose dates within these, or drop the trees that hold the zone back.";
  if (start > end) {
    const mended: ZoneEdit = { ...edit, askedWindow: null };
    return refused("window-outside-visits", reason, whatToDo, [`Take ${allowed}`, mended]);
  }
  const narrowed = { start: dateOfDay(start), end: dateOfDay(end) };
  const label = `Take ${formatDate(narrowed.start)} to ${formatDate(narrowed.end)}`;
  return refused("window-outside-visits", reason, whatToDo, [label, { ...edit, askedWindow: narrowed }]);
}

function dayFault(zone: Zone, edit: EditOf<"set-dates">, day: IsoDate): ZoneEditFinding | null {
  const refused = refusal(zone, day);
  if (parseIsoDate(day) === null)
    return refused("date-unreadable", "The day is not a date YYYY-MM-DD.", "Give it as 2027-03-31.");
  if (day >= zone.windowStart && day <= zone.windowEnd) return null;
  const nearest = day < zone.windowStart ? zone.windowStart : zone.windowEnd;
  return refused(
    "planned-outside-window",
    `The zone may be worked from ${formatDate(zone.windowStart)} to ${formatDate(zone.windowEnd)} only.`,
    "Plan a day within these.",
    [`Plan it for ${formatDate(nearest)}`, { ...edit, plannedOn: nearest }],
  );
}

function refusal({ zoneId }: Zone, value: string) {
  return (code: string, reason: string, whatToDo: string, mend?: readonly [string, ZoneEdit]): ZoneEditFinding =>
    zoneFinding({
      code,
      severity: "error",
      zoneId,
      value,
      reason,
      whatToDo,
      mends: mend === undefined ? [] : [{ label: mend[0], edit: mend[1], when: "instead" }],
    });
}
