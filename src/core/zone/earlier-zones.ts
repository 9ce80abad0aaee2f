import type { Zone } from "../model/zone.ts";
import { commonDays, hoursOf } from "./day.ts";
import { MOST_DAY_SHARE } from "./split-route.ts";
import { isPlanned, type Stop } from "./stops.ts";

/** A day's work, with the zone it was before. */
export interface Day {
  readonly stops: Stop[];
  /** Zone whose id and name it keeps; null for a new one. */
  readonly earlier: Zone | null;
}

/** A zone put together by hand, with the work that is still to be done in it. */
export interface HeldZone {
  readonly zone: Zone;
  /** In the zone's order of work. */
  readonly stops: readonly Stop[];
}

/** What a plan's zones leave to do. */
export interface KeptZones {
  /** Zones that a crew has been told of: nothing moves in or out. */
  readonly fixed: readonly Zone[];
  /** Drafts that are locked or were put together by hand: nothing moves in or out either, their figures are made anew. */
  readonly held: readonly HeldZone[];
  /** Other drafts, with the work that is still to be done in them. */
  readonly drafts: readonly Day[];
  /** Planned stops in none of these. */
  readonly loose: readonly Stop[];
}

/**
 * The zones of a plan as the beginning of its next ones, so that a tree that is added or gone moves nothing but what is around it. A draft whose
 * visits have come to ask for different crews, dates or more than a day's hours is taken apart; one put together by hand only when its visits
 * have no day in common any more, and a locked one then stays as it was. `stops` are the next visits of all trees.
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
  const leftOf = ({ visitIds }: Zone): Stop[] =>
    visitIds.flatMap((id) => {
      const stop = byVisit.get(id);
      return stop === undefined || taken.has(id) ? [] : [stop];
    });
  const take = (visitIds: readonly string[]): void => {
    for (const id of visitIds) taken.add(id);
  };
  const byHand = zones.filter((zone) => zone.state === "draft" && (zone.isLocked === true || zone.isByHand === true));
  const held: HeldZone[] = [];
  // A visit in two zones stays in the locked one.
  for (const zone of [...byHand].sort((a, b) => Number(b.isLocked === true) - Number(a.isLocked === true))) {
    const left = leftOf(zone);
    if (left.length > 0 && hasCommonDay(left)) held.push({ zone, stops: left });
    else if (left.length > 0 && zone.isLocked === true) fixed.push(zone);
    else continue;
    take(left.map(({ visit }) => visit.visitId));
  }
  const drafts: Day[] = [];
  for (const zone of zones) {
    if (zone.state !== "draft" || byHand.includes(zone)) continue;
    const left = leftOf(zone).filter(isPlanned);
    const fits = left.length === 1 || (hoursOf(left) <= MOST_DAY_SHARE * hoursPerDay && mayShareDay(left));
    if (left.length === 0 || !fits) continue;
    drafts.push({ stops: left, earlier: zone });
    take(left.map(({ visit }) => visit.visitId));
  }
  return { fixed, held, drafts, loose: stops.filter((stop) => isPlanned(stop) && !taken.has(stop.visit.visitId)) };
}

function hasCommonDay(stops: readonly Stop[]): boolean {
  const [firstDay, lastDay] = commonDays(stops);
  return firstDay <= lastDay;
}
