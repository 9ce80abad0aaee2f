import type { Zone } from "../model/zone.ts";
import { hoursOf } from "./day.ts";
import { MOST_DAY_SHARE } from "./split-route.ts";
import type { Stop } from "./stops.ts";

/** A day's work, with the zone it was before. */
export interface Day {
  readonly stops: Stop[];
  /** Zone whose id and name it keeps; null for a new one. */
  readonly earlier: Zone | null;
}

/** What a plan's zones leave to do. */
export interface KeptZones {
  /** Zones that a crew has been told of: nothing moves in or out. */
  readonly fixed: readonly Zone[];
  /** Drafts, with the work that is still to be done in them. */
  readonly drafts: readonly Day[];
  /** Stops in none of these. */
  readonly loose: readonly Stop[];
}

/**
 * The zones of a plan as the beginning of its next ones, so that a tree that is added or gone moves nothing but what is around it. A draft whose
 * visits have come to ask for different crews, dates or more than a day's hours is taken apart.
 */
export function keptZones(
  zones: readonly Zone[],
  stops: readonly Stop[],
  hoursPerDay: number,
  mayShareDay: (stops: readonly Stop[]) => boolean,
): KeptZones {
  const byVisit = new Map(stops.map((stop) => [stop.visit.visitId, stop]));
  const fixed = zones.filter(({ state }) => state !== "draft");
  const taken = new Set(fixed.flatMap(({ visitIds }) => visitIds));
  const drafts: Day[] = [];
  for (const zone of zones) {
    if (zone.state !== "draft") continue;
    const left = zone.visitIds.flatMap((id) => {
      const stop = byVisit.get(id);
      return stop === undefined || taken.has(id) ? [] : [stop];
    });
    const fits = left.length === 1 || (hoursOf(left) <= MOST_DAY_SHARE * hoursPerDay && mayShareDay(left));
    if (left.length === 0 || !fits) continue;
    drafts.push({ stops: left, earlier: zone });
    for (const { visit } of left) taken.add(visit.visitId);
  }
  return { fixed, drafts, loose: stops.filter(({ visit }) => !taken.has(visit.visitId)) };
}
