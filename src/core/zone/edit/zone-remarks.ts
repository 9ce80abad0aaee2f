import { CREWS } from "../../model/terms.ts";
import type { Zone } from "../../model/zone.ts";
import { dayNumber } from "../../units/calendar.ts";
import { formatDate } from "../../units/format-date.ts";
import { formatLength } from "../../units/format-length.ts";
import { commonDays } from "../day.ts";
import { islandsOf } from "../islands.ts";
import { LONGEST_STEP_M } from "../longest-step.ts";
import { COMMON_DAYS, MOST_DAY_SHARE } from "../split-route.ts";
import type { Stop } from "../stops.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { ZoneEdit } from "./zone-edit.ts";
import type { ZoneEditFinding } from "./zone-edit-result.ts";
import { isOrAre, treesText, zoneFinding } from "./zone-finding.ts";

/** What is doubtful about a zone whose work was changed by hand, each with an edit that mends it. `before` is the zone before the edit. */
export function zoneRemarks(desk: ZoneDesk, zone: Zone, before: Zone | null): ZoneEditFinding[] {
  const stops = stopsOf(desk, zone);
  return [
    crewRemark(zone, stops, before),
    hoursRemark(desk, zone),
    distanceRemark(desk, zone, stops),
    windowRemark(zone, stops),
    waitingRemark(zone, stops),
    diseaseRemark(zone, stops),
    plannedRemark(zone),
  ].filter((remark) => remark !== null);
}

const idsOf = (stops: readonly Stop[]): string[] => stops.map(({ tree }) => tree.id);

function warning(
  code: string,
  { zoneId }: Zone,
  treeIds: readonly string[],
  [reason, whatToDo]: readonly [string, string],
  mends: readonly (readonly [label: string, edit: ZoneEdit])[],
): ZoneEditFinding {
  return zoneFinding({
    code,
    severity: "warning",
    zoneId,
    treeIds,
    reason,
    whatToDo,
    mends: mends.map(([label, edit]) => ({ label, edit, when: "after" })),
  });
}

const splitOff = ({ zoneId }: Zone, treeIds: readonly string[]): readonly [string, ZoneEdit] => [
  "Give them a zone of their own",
  { kind: "split", zoneId, at: { by: "trees", treeIds } },
];

function crewRemark(zone: Zone, stops: readonly Stop[], before: Zone | null): ZoneEditFinding | null {
  if (before === null || CREWS.indexOf(zone.crew) <= CREWS.indexOf(before.crew)) return null;
  const treeIds = idsOf(stops.filter(({ visit }) => CREWS.indexOf(visit.crew) > CREWS.indexOf(before.crew)));
  return warning(
    "crew-raised",
    zone,
    treeIds,
    [
      `The zone was ${before.crew} work and now calls for a ${zone.crew} crew, for ${treesText(treeIds)}.`,
      "Keep it so where that crew is to do all of it, or give these trees a zone of their own.",
    ],
    [splitOff(zone, treeIds)],
  );
}

function hoursRemark({ frame }: ZoneDesk, zone: Zone): ZoneEditFinding | null {
  const { hoursPerDay } = frame.settings;
  if (zone.treeIds.length < 2 || zone.hours <= MOST_DAY_SHARE * hoursPerDay + 0.005) return null;
  return warning(
    "more-than-a-day",
    zone,
    zone.treeIds,
    [
      `${zone.hours.toFixed(1)} h of work, more than 1.1 times a crew-day of ${hoursPerDay} h.`,
      "Part it into days, or plan more than one.",
    ],
    [["Part into days", { kind: "split", zoneId: zone.zoneId, at: { by: "days" } }]],
  );
}

function distanceRemark({ frame }: ZoneDesk, zone: Zone, stops: readonly Stop[]): ZoneEditFinding | null {
  const islands = islandsOf(stops, LONGEST_STEP_M);
  if (islands.length < 2) return null;
  const largest = islands.reduce((best, island) => (island.length > best.length ? island : best));
  const treeIds = idsOf(islands.filter((island) => island !== largest).flat());
  return warning(
    "work-far-apart",
    zone,
    treeIds,
    [
      `${treesText(treeIds)} ${isOrAre(treeIds)} more than ${formatLength(LONGEST_STEP_M, frame.units)} from the rest of the zone.`,
      "A crew packs up to get there: part the zone.",
    ],
    [["Part where it is far", { kind: "split", zoneId: zone.zoneId, at: { by: "islands" } }]],
  );
}

function windowRemark(zone: Zone, stops: readonly Stop[]): ZoneEditFinding | null {
  const [firstDay, lastDay] = commonDays(stops);
  const days = lastDay - firstDay + 1;
  const tightest = Math.min(...stops.map((stop) => stop.lastDay - stop.firstDay + 1));
  if (days >= Math.min(COMMON_DAYS, tightest)) return null;
  const late = stops.filter((stop) => stop.firstDay === firstDay);
  const early = stops.filter((stop) => stop.lastDay === lastDay);
  const treeIds = idsOf(late.length <= early.length ? late : early);
  return warning(
    "few-common-days",
    zone,
    treeIds,
    [
      `All of the zone may be worked on ${days === 1 ? "one day" : `${days} days`} only, because of ${treesText(treeIds)}.`,
      "Give these trees a zone of their own, so that weather cannot cost the whole zone its dates.",
    ],
    [splitOff(zone, treeIds)],
  );
}

function waitingRemark(zone: Zone, stops: readonly Stop[]): ZoneEditFinding | null {
  const opensOn = dayNumber(zone.windowStart);
  const treeIds = idsOf(stops.filter(({ dueDay }) => dueDay < opensOn));
  if (treeIds.length === 0) return null;
  return warning(
    "due-before-open",
    zone,
    treeIds,
    [
      `${treesText(treeIds)} ${isOrAre(treeIds)} due before the zone's dates begin on ${formatDate(zone.windowStart)}.`,
      "Give them a zone of their own that can be worked earlier.",
    ],
    treeIds.length < stops.length ? [splitOff(zone, treeIds)] : [],
  );
}

function diseaseRemark(zone: Zone, stops: readonly Stop[]): ZoneEditFinding | null {
  const lastHealthy = stops.findLastIndex(({ isDiseased }) => !isDiseased);
  const tooSoon = idsOf(stops.filter(({ isDiseased }, at) => isDiseased && at < lastHealthy));
  if (tooSoon.length === 0) return null;
  const healthy = stops.filter(({ isDiseased }) => !isDiseased);
  const diseased = stops.filter(({ isDiseased }) => isDiseased);
  const last = idsOf([...healthy, ...diseased]);
  return warning(
    "diseased-before-healthy",
    zone,
    tooSoon,
    [
      `${treesText(tooSoon)} with diseased limbs ${isOrAre(tooSoon)} worked before healthy ones.`,
      "Work diseased trees last; where that cannot be, disinfect tools before the next tree.",
    ],
    [
      ["Put diseased trees last", { kind: "order", zoneId: zone.zoneId, treeIds: last }],
      ["Search for a short walk", { kind: "order", zoneId: zone.zoneId }],
    ],
  );
}

function plannedRemark(zone: Zone): ZoneEditFinding | null {
  const { plannedOn = null, windowStart, windowEnd } = zone;
  if (plannedOn === null || (plannedOn >= windowStart && plannedOn <= windowEnd)) return null;
  const nearest = plannedOn < windowStart ? windowStart : windowEnd;
  return warning(
    "planned-outside-window",
    zone,
    [],
    [
      `The zone is planned for ${formatDate(plannedOn)}, outside its dates ${formatDate(windowStart)} to ${formatDate(windowEnd)}.`,
      "Plan another day.",
    ],
    [[`Plan it for ${formatDate(nearest)}`, { kind: "set-dates", zoneId: zone.zoneId, plannedOn: nearest }]],
  );
}
