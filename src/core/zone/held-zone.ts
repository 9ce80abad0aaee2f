import type { Zone } from "../model/zone.ts";
import { dayNumber } from "../units/calendar.ts";
import { commonDays } from "./day.ts";
import { describeZone } from "./describe-zone.ts";
import type { HeldZone } from "./earlier-zones.ts";
import { walkedAsGiven, walkedDay } from "./walked-day.ts";
import type { ZoneFrame } from "./zone-frame.ts";

/**
 * A zone put together by hand with its figures made anew: its order of work stays where it was set by hand or the zone is locked, and the dates
 * asked for stay as long as its visits allow one of them.
 */
export function heldZone({ zone, stops }: HeldZone, frame: ZoneFrame): Zone {
  const isOrdered = zone.isHandOrdered === true || zone.isLocked === true;
  const day = isOrdered ? walkedAsGiven(stops, frame.streets) : walkedDay(stops, frame.streets);
  const [firstDay, lastDay] = commonDays(stops);
  const asked = zone.askedWindow ?? null;
  const isAskedFor = asked !== null && dayNumber(asked.start) <= lastDay && dayNumber(asked.end) >= firstDay;
  return describeZone({ ...zone, askedWindow: isAskedFor ? asked : null }, day, frame);
}
