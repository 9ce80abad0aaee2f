import { CREWS, URGENCIES } from "../model/terms.ts";
import { mainUrgencyOf } from "./day.ts";
import type { NearStops } from "./near-stops.ts";
import type { Stop } from "./stops.ts";

/** What it costs in meters of walk to take a stop along with work that is a step more urgent, or with a crew a step more restricted. Our policy. */
const OTHER_URGENCY_M = 100;
const OTHER_CREW_M = 150;
/** Work of another urgency is taken along only this near, in meters, so that no day hurries or waits for the sake of a tree streets away. Our policy. */
const OTHER_URGENCY_REACH_M = 100;

/** What it costs in meters of walk to mix a stop with a day's work of another urgency or crew. */
export function otherness(stop: Stop, stops: readonly Stop[]): number {
  const { visit } = stops[0]!;
  const urgency = Math.abs(URGENCIES.indexOf(visit.urgency) - URGENCIES.indexOf(stop.visit.urgency));
  const crew = Math.abs(CREWS.indexOf(visit.crew) - CREWS.indexOf(stop.visit.crew));
  return OTHER_URGENCY_M * urgency + OTHER_CREW_M * crew;
}

/** Whether a stop is near enough to a day's work to be taken along: within 100 m of it where its urgency is not that of most of the day's work. */
export function isNearEnough(stop: Stop, stops: readonly Stop[], near: NearStops): boolean {
  const main = mainUrgencyOf(stops);
  if (stop.visit.urgency === main) return true;
  const isMain = new Set(stops.filter(({ visit }) => visit.urgency === main));
  return near.around(stop, OTHER_URGENCY_REACH_M).some(([other]) => isMain.has(other));
}
