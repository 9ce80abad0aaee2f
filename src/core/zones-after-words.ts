import type { Plan } from "./model/plan.ts";
import type { Visit } from "./model/prescription.ts";
import type { ArboristWord, ZonePlace } from "./model/word.ts";
import type { Zone } from "./model/zone.ts";
import type { Standard } from "./standard/standard.ts";
import { commonDays } from "./zone/day.ts";
import { describeZone } from "./zone/describe-zone.ts";
import type { ZoneDesk } from "./zone/edit/zone-desk.ts";
import { zoneDesk } from "./zone/edit/zone-desk.ts";
import type { Stop } from "./zone/stops.ts";
import { walkedAsGiven } from "./zone/walked-day.ts";

/** Zones after words were taken, and for each tree the places that its visits left. */
export interface ZonesAfterWords {
  readonly zones: readonly Zone[];
  readonly left: ReadonlyMap<string, readonly ZonePlace[]>;
}

/**
 * The zones with the visits that the plan still asks for. Visits that words call off leave, and return to their place when those are taken back; drafts
 * with a visit that is asked for otherwise, or on other days, have their figures made anew in their order, and a visit that has no day in common with its
 * draft any more leaves it. Zones that a crew was told of keep their figures; a draft of which nothing is left goes.
 */
export function zonesAfterWords(
  before: Plan,
  next: Plan,
  changed: ReadonlySet<string>,
  takenBack: readonly ArboristWord[],
  standard: Standard,
): ZonesAfterWords {
  const left = new Map<string, ZonePlace[]>();
  if (before.zones.length === 0) return { zones: before.zones, left };
  const was = nextVisits(before);
  const is = nextVisits(next);
  const placed = new Set(before.zones.flatMap(({ visitIds }) => visitIds));
  let desk: ZoneDesk | null = null;
  const zones = before.zones.flatMap((zone): Zone[] => {
    const back = takenBack
      .flatMap((word) => word.left ?? [])
      .filter(({ zoneId, visitId }) => zoneId === zone.zoneId && is.has(visitId) && !placed.has(visitId))
      .sort((one, other) => one.at - other.at);
    if (back.length === 0 && !zone.treeIds.some((id) => changed.has(id))) return [zone];
    const ids = [...zone.visitIds];
    for (const { visitId, at } of back) ids.splice(Math.min(at, ids.length), 0, visitId);
    const kept = ids.filter((id) => is.has(id) || !was.has(id));
    for (const visitId of ids) {
      if (!kept.includes(visitId)) leave(left, was.get(visitId)!, zone, ids.indexOf(visitId));
    }
    const isSame =
      kept.length === zone.visitIds.length &&
      kept.every((id, at) => id === zone.visitIds[at] && JSON.stringify(was.get(id)) === JSON.stringify(is.get(id)));
    if (isSame) return [zone];
    if (zone.state !== "draft") return [withVisits(zone, kept, is)];
    desk ??= zoneDesk(next, standard);
    const own = new Map(desk.stops.map((stop) => [stop.visit.visitId, stop]));
    const stops = kept.flatMap((id) => own.get(id) ?? []);
    const together = inCommon(stops, changed);
    for (const { visit } of stops) {
      if (!together.some((one) => one.visit === visit)) leave(left, visit, zone, ids.indexOf(visit.visitId));
    }
    if (together.length === 0) return [];
    return [describeZone(zone, walkedAsGiven(together, desk.frame.streets), desk.frame)];
  });
  return { zones, left };
}

const nextVisits = ({ prescriptions }: Plan): Map<string, Visit> =>
  new Map(prescriptions.flatMap(({ visits }) => visits.slice(0, 1).map((visit) => [visit.visitId, visit] as const)));

function leave(left: Map<string, ZonePlace[]>, { treeId, visitId }: Visit, { zoneId }: Zone, at: number): void {
  left.set(treeId, [...(left.get(treeId) ?? []), { zoneId, visitId, at }]);
}

/** The stops that have a day in common; those whose trees were spoken of give way to the others. */
function inCommon(stops: readonly Stop[], changed: ReadonlySet<string>): readonly Stop[] {
  if (stops.length === 0 || shareDay(stops)) return stops;
  const others = stops.filter(({ tree }) => !changed.has(tree.id));
  let kept: Stop[] = others;
  for (const stop of stops) {
    if (!changed.has(stop.tree.id)) continue;
    if (kept.length === 0 || shareDay([...kept, stop]))
      kept = stops.filter((one) => kept.includes(one) || one === stop);
  }
  return kept;
}

function shareDay(stops: readonly Stop[]): boolean {
  const [firstDay, lastDay] = commonDays(stops);
  return firstDay <= lastDay;
}

/** A zone that a crew was told of, without the visits that are no more. */
const withVisits = (zone: Zone, visitIds: readonly string[], visits: ReadonlyMap<string, Visit>): Zone => ({
  ...zone,
  visitIds,
  treeIds: visitIds.map((id) => visits.get(id)?.treeId ?? zone.treeIds[zone.visitIds.indexOf(id)]!),
});
