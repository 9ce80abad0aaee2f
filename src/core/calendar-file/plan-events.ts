import type { ConflictRecord } from "../model/conflict.ts";
import type { Plan } from "../model/plan.ts";
import type { Visit } from "../model/prescription.ts";
import type { Zone } from "../model/zone.ts";
import {
  NOTICE_WORDS,
  type Notice,
  type NoticeStop,
  noticeBy,
  noticeDay,
  zoneNotices,
} from "../standard/needed-notices.ts";
import type { Standard } from "../standard/standard.ts";
import type { IsoDate } from "../units/calendar.ts";
import { formatDate } from "../units/format-date.ts";
import type { CalendarEvent } from "./calendar-event.ts";

/** What stands in every event. */
const CAUTION =
  "A plan, not a permit: local codes, the road authority and licensed or line-clearance arborists decide.";
/** Ids that a description names; the plan has all. */
const MOST_TREES = 20;

/**
 * The events of a plan: for each zone with open work its day, or while none is planned its last day in time, and its notices counted back from there; then every
 * day on which hazard deadlines end, zone by zone, those outside of zones together.
 */
export function planEvents(plan: Plan, standard: Standard): CalendarEvent[] {
  const stops = new Map(
    plan.prescriptions.flatMap(({ visits }, row) =>
      visits.map((visit) => [visit.visitId, { tree: plan.trees[row]!, visit }] as const),
    ),
  );
  const conflictsOf = new Map<number, ConflictRecord[]>();
  for (const conflict of plan.conflicts) {
    const own = conflictsOf.get(conflict.treeRow);
    if (own === undefined) conflictsOf.set(conflict.treeRow, [conflict]);
    else own.push(conflict);
  }
  const open = plan.zones.filter(({ visitIds, state }) => visitIds.length > 0 && state !== "done");
  const zoned = new Set(open.flatMap(({ visitIds }) => visitIds));
  const events: CalendarEvent[] = [];
  for (const zone of open) {
    const own = zone.visitIds.flatMap((id): NoticeStop[] => {
      const stop = stops.get(id);
      return stop === undefined ? [] : [{ ...stop, conflicts: conflictsOf.get(stop.visit.treeRow) ?? [] }];
    });
    const notices = zoneNotices(zone.closure, own, standard.notices);
    events.push(zoneEvent(plan, zone, own, notices));
    for (const notice of notices) events.push(noticeEvent(plan, zone, own, notice));
  }
  for (const zone of open) {
    const visits = zone.visitIds.flatMap((id) => stops.get(id)?.visit ?? []);
    events.push(...deadlineEvents(plan, visits, zone));
  }
  const loose = [...stops.values()].filter(({ visit }) => !zoned.has(visit.visitId)).map(({ visit }) => visit);
  events.push(...deadlineEvents(plan, loose, null));
  return events;
}

function zoneEvent(plan: Plan, zone: Zone, stops: readonly NoticeStop[], notices: readonly Notice[]): CalendarEvent {
  const day = noticeDay(zone);
  const isPlanned = zone.plannedOn != null;
  const lines = [
    isPlanned ? `Planned for ${formatDate(day)}.` : `No day is planned yet; ${formatDate(day)} is the last in time.`,
    `Allowed ${formatDate(zone.windowStart)} to ${formatDate(zone.windowEnd)}, due ${formatDate(zone.due)}.`,
    `${capitalized(zone.crew)} crew, ${zone.hours.toFixed(1)} crew-hours, ${countOf(stops.length)}.`,
    ...notices.map(({ kind, leadDays }) => `By ${formatDate(noticeBy(day, leadDays))}: ${NOTICE_WORDS[kind]}.`),
    `Zone ${zone.zoneId}, plan ${plan.planId}, revision ${plan.revision}.`,
    CAUTION,
  ];
  return {
    uid: uidOf(plan, zone.zoneId),
    day,
    summary: `${isPlanned ? "" : "Latest: "}${zone.name} (${zone.crew})`,
    description: lines.join("\n"),
    category: "zone",
    isPlanned,
    ...placeOf(zone, stops),
  };
}

function noticeEvent(plan: Plan, zone: Zone, stops: readonly NoticeStop[], notice: Notice): CalendarEvent {
  const { kind, leadDays, treeIds } = notice;
  const workOn = noticeDay(zone);
  const day = noticeBy(workOn, leadDays);
  const isLate = day < plan.options.asOf;
  const lines = [
    `${capitalized(NOTICE_WORDS[kind])}: ${leadDays} days before ${formatDate(workOn)}, ${zone.plannedOn == null ? "the last day in time" : "the day of the work"}.`,
    ...(isLate
      ? [`This day is before the plan's own date, ${formatDate(plan.options.asOf)}: ask at once, or plan later.`]
      : []),
    ...(treeIds.length === 0 ? [] : [`Trees ${listed(treeIds)}.`]),
    CAUTION,
  ];
  return {
    uid: uidOf(plan, `${zone.zoneId}-${kind}`),
    day,
    summary: `${capitalized(NOTICE_WORDS[kind])}: ${zone.name}`,
    description: lines.join("\n"),
    category: "notice",
    isPlanned: zone.plannedOn != null,
    ...placeOf(zone, stops),
  };
}

/** A day each on which deadlines of hazards end. */
function deadlineEvents(plan: Plan, visits: readonly Visit[], zone: Zone | null): CalendarEvent[] {
  const byDay = new Map<IsoDate, string[]>();
  for (const { due, urgency, treeId } of visits) {
    if (urgency !== "now") continue;
    const own = byDay.get(due);
    if (own === undefined) byDay.set(due, [treeId]);
    else own.push(treeId);
  }
  return [...byDay.keys()].sort().map((day) => {
    const treeIds = byDay.get(day)!;
    const where = zone === null ? "in no zone" : zone.name;
    return {
      uid: uidOf(plan, `deadline-${day}${zone === null ? "" : `-${zone.zoneId}`}`),
      day,
      summary: `Deadline: ${countOf(treeIds.length)}, ${where}`,
      description: [`The deadline of a hazard ends on ${formatDate(day)}: ${listed(treeIds)}.`, CAUTION].join("\n"),
      location: zone === null ? "" : zone.streets.join(", "),
      geo: null,
      category: "deadline",
      isPlanned: true,
    };
  });
}

function placeOf(zone: Zone, [first]: readonly NoticeStop[]): Pick<CalendarEvent, "location" | "geo"> {
  const geo = first === undefined ? null : { latDeg: first.tree.latDeg, lonDeg: first.tree.lonDeg };
  return { location: zone.streets.join(", "), geo };
}

const uidOf = ({ planId }: Plan, name: string): string => `${name}@${planId}.boughline`;
const countOf = (trees: number): string => `${trees} ${trees === 1 ? "tree" : "trees"}`;
const capitalized = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function listed(ids: readonly string[]): string {
  const rest = ids.length - MOST_TREES;
  return `${ids.slice(0, MOST_TREES).join(", ")}${rest > 0 ? ` and ${rest} more` : ""}`;
}
