import { CREWS, type Crew, URGENCIES, type Urgency } from "../model/terms.ts";
import { COMMON_DAYS } from "./split-route.ts";
import type { Stop } from "./stops.ts";

/** Who can do all of the stops: the most restricted crew any of them asks for, which may do the others' work as well. */
export function crewOf(stops: readonly Stop[]): Crew {
  return CREWS[Math.max(...stops.map(({ visit }) => CREWS.indexOf(visit.crew)))]!;
}

/** The most urgent of the stops. */
export function urgencyOf(stops: readonly Stop[]): Urgency {
  return URGENCIES[Math.min(...stops.map(({ visit }) => URGENCIES.indexOf(visit.urgency)))]!;
}

/** The urgency of most of the stops; of equals the more urgent. */
export function mainUrgencyOf(stops: readonly Stop[]): Urgency {
  const counts = URGENCIES.map((urgency) => stops.filter(({ visit }) => visit.urgency === urgency).length);
  return URGENCIES[counts.indexOf(Math.max(...counts))]!;
}

export const hoursOf = (stops: readonly Stop[]): number => stops.reduce((sum, { hours }) => sum + hours, 0);

/** First and last day on which all stops are allowed; the last is before the first where there is none. */
export const commonDays = (stops: readonly Stop[]): readonly [firstDay: number, lastDay: number] => [
  Math.max(...stops.map(({ firstDay }) => firstDay)),
  Math.min(...stops.map(({ lastDay }) => lastDay)),
];

/** The earliest due day of the stops. */
export const dueDayOf = (stops: readonly Stop[]): number => Math.min(...stops.map(({ dueDay }) => dueDay));

/**
 * Whether stops of several kinds may be one day's work: a common week of all windows (or as many days as the tightest has), which opens before
 * any of the work is due, and crews one step apart at most. The line owner's crew keeps to its own work.
 */
export function mayShareDay(stops: readonly Stop[]): boolean {
  const [firstDay, lastDay] = commonDays(stops);
  const tightest = Math.min(...stops.map((stop) => stop.lastDay - stop.firstDay + 1));
  if (lastDay - firstDay + 1 < Math.min(COMMON_DAYS, tightest)) return false;
  if (stops.some(({ dueDay }) => dueDay < firstDay)) return false;
  const levels = stops.map(({ visit }) => CREWS.indexOf(visit.crew));
  const [least, most] = [Math.min(...levels), Math.max(...levels)];
  return least === most || (CREWS[most] !== "utility" && most - least <= 1);
}
