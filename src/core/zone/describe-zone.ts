import type { AskedWindow, Zone } from "../model/zone.ts";
import { dateOfDay, dayNumber, type IsoDate } from "../units/calendar.ts";
import { closureOf } from "./closure.ts";
import { commonDays, crewOf, dueDayOf, hoursOf, urgencyOf } from "./day.ts";
import { zoneOutline } from "./outline.ts";
import type { WalkedDay } from "./walked-day.ts";
import type { ZoneFrame } from "./zone-frame.ts";
import { zoneHazards } from "./zone-hazards.ts";
import { streetsOf } from "./zone-name.ts";

/** What a zone is, apart from what follows from its stops. */
export interface ZoneIdentity {
  readonly zoneId: string;
  readonly name: string;
  readonly state: Zone["state"];
  readonly isLocked?: boolean;
  readonly isByHand?: boolean;
  readonly isHandOrdered?: boolean;
  readonly plannedOn?: IsoDate | null;
  readonly askedWindow?: AskedWindow | null;
}

/**
 * A zone with everything that follows from its stops in their order of work: crew, hours, window, due date, hazards, closure, outline, walk. Its
 * window is the days all its visits allow, narrowed to those asked for. Throws RangeError for no stops.
 */
export function describeZone(identity: ZoneIdentity, day: WalkedDay, frame: ZoneFrame): Zone {
  const { stops, sides } = day;
  const { standard, settings, units, roads } = frame;
  const [firstDay, lastDay] = narrowed(commonDays(stops), identity.askedWindow ?? null);
  const crew = crewOf(stops);
  const hours = hundredths(hoursOf(stops));
  const isByHand = identity.isByHand === true;
  const work = { stops, crew, hours, hoursPerDay: settings.hoursPerDay, firstDay, lastDay, isByHand };
  return {
    zoneId: identity.zoneId,
    name: identity.name,
    state: identity.state,
    crew,
    visitIds: stops.map(({ visit }) => visit.visitId),
    treeIds: stops.map(({ tree }) => tree.id),
    hours,
    windowStart: dateOfDay(firstDay),
    windowEnd: dateOfDay(lastDay),
    due: dateOfDay(dueDayOf(stops)),
    urgency: urgencyOf(stops),
    streets: streetsOf(stops),
    walkM: hundredths(day.walkM),
    hazards: zoneHazards(work, standard, units),
    closure: closureOf(stops, { roads, standard, units, hasLift: settings.hasLift, sides }),
    area: zoneOutline(stops),
    ...(identity.isLocked === true ? { isLocked: true } : {}),
    ...(isByHand ? { isByHand } : {}),
    ...(identity.isHandOrdered === true ? { isHandOrdered: true } : {}),
    ...(identity.plannedOn == null ? {} : { plannedOn: identity.plannedOn }),
    ...(identity.askedWindow == null ? {} : { askedWindow: identity.askedWindow }),
  };
}

function narrowed(
  [firstDay, lastDay]: readonly [number, number],
  asked: AskedWindow | null,
): readonly [firstDay: number, lastDay: number] {
  return asked === null
    ? [firstDay, lastDay]
    : [Math.max(firstDay, dayNumber(asked.start)), Math.min(lastDay, dayNumber(asked.end))];
}

const hundredths = (value: number): number => Math.round(value * 100) / 100;
