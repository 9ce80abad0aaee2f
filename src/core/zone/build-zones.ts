import type { Plan, ZoneOptions } from "../model/plan.ts";
import { CREWS, URGENCIES } from "../model/terms.ts";
import type { Zone } from "../model/zone.ts";
import type { Standard } from "../standard/standard.ts";
import { dayNumber } from "../units/calendar.ts";
import { crewOf, dueDayOf, mayShareDay, urgencyOf } from "./day.ts";
import { describeZone } from "./describe-zone.ts";
import { type Day, keptZones } from "./earlier-zones.ts";
import { fillDays } from "./fill-days.ts";
import { heldZone } from "./held-zone.ts";
import { islandsOf } from "./islands.ts";
import { LONGEST_STEP_M } from "./longest-step.ts";
import { NearStops } from "./near-stops.ts";
import { withToll } from "./order-of-work.ts";
import { routeThrough } from "./route.ts";
import { splitRoute } from "./split-route.ts";
import { groupKey, isInLane, nextStops, type Stop, stopPositions } from "./stops.ts";
import type { Streets } from "./streets/streets.ts";
import { tradeStops } from "./trade-stops.ts";
import { type WalkedDay, walkedDay } from "./walked-day.ts";
import { walkingAmong } from "./walking.ts";
import { WaysBetween } from "./ways-between.ts";
import { zoneFrame } from "./zone-frame.ts";
import { freeZoneId } from "./zone-id.ts";
import { zoneNames } from "./zone-name.ts";
import { hoursOfCrew, zoneSettings } from "./zone-settings.ts";

/** What it costs in meters of walk to set a closure up anew on another side of a street. Our policy. */
const OTHER_SIDE_M = 60;

/**
 * Work zones of about a crew-day from the next visit of every tree whose work is due by the end of its next window, the most urgent first, all `draft`.
 *
 * Visits are parted by crew, urgency and the time of year of their work, then into islands no step over 300 m joins; in each a short way along the
 * streets through all stops is searched for and cut into days at the least cost: route first, cluster second (Beasley 1983). What is left over is
 * put into days near it that have room ({@link fillDays}), with work that is more urgent or needs a more restricted crew. Every such visit is in
 * exactly one zone. An island with less work than three quarters of a day stays a small zone and says so.
 *
 * Zones the plan has already are its beginning: drafts keep their work, id and name, what is new goes where there is room near it, and zones that
 * were issued, are locked or were put together by hand keep the work they have and take no other. So a tree that is added changes its own zone and those beside it. Throws RangeError for options out of range.
 */
export function buildZones(plan: Plan, standard: Standard, options: ZoneOptions = plan.options.zoning ?? {}): Zone[] {
  const settings = zoneSettings(options, standard);
  const { hoursPerDay } = settings;
  const stops = nextStops(plan, ({ hours, crew }) => hoursOfCrew(hours, crew, settings, standard));
  const frame = zoneFrame(plan, standard, settings, stops);
  const { streets } = frame;
  const kept = keptZones(plan.zones, stops, hoursPerDay, mayShareDay);
  const cut = groups(kept.loose, dayNumber(plan.options.asOf))
    .flatMap((group) => islandsOf(group, LONGEST_STEP_M))
    .flatMap((island) => crewDays(island, streets, hoursPerDay))
    .sort(byUrgency);
  const begun: readonly Day[] = [...kept.drafts, ...cut.map((day) => ({ stops: day, earlier: null }))];
  const placed = begun.flatMap((day) => day.stops);
  const ways = new WaysBetween(placed, streets);
  const limits = {
    hoursPerDay,
    longestStepM: LONGEST_STEP_M,
    ways,
    near: new NearStops(placed, ways),
  };
  const filled = fillDays(
    begun.map((day) => day.stops),
    begun.map(({ earlier }) => earlier !== null),
    limits,
  );
  const traded = tradeStops(
    filled.map((day) => (day.length === 0 ? day : walkedDay(day, streets).stops)),
    begun.map(({ earlier }) => earlier === null),
    limits,
  );
  const days = traded.flatMap((day, at): PlacedDay[] =>
    day.length === 0 ? [] : [{ ...walkedDay(day, streets), earlier: begun[at]!.earlier }],
  );
  days.sort((a, b) => byUrgency(a.stops, b.stops));
  const fixed = [...kept.fixed, ...kept.held.map((held) => heldZone(held, frame))];
  const named = namedDays(days, fixed);
  return [...fixed, ...days.map((day, at) => describeZone({ ...named[at]!, state: "draft" }, day, frame))];
}

/** A day in its order of work, with the zone it was before. */
interface PlacedDay extends WalkedDay {
  readonly earlier: Zone | null;
}

/** Ids and names of days: those of the zone a day was before, else new ones that no other zone has. */
function namedDays(days: readonly PlacedDay[], fixed: readonly Zone[]): Pick<Zone, "zoneId" | "name">[] {
  const kept = [...fixed, ...days.flatMap(({ earlier }) => earlier ?? [])];
  const usedIds = new Set(kept.map((zone) => zone.zoneId));
  const names = zoneNames(
    days.map((day) => day.stops),
    stopPositions(days.map((day) => day.stops[0]!)),
    days.map(({ earlier }) => earlier?.name ?? null),
    fixed.map(({ name }) => name),
  );
  return days.map(({ stops, earlier }, at) => {
    if (earlier !== null) return { zoneId: earlier.zoneId, name: earlier.name };
    const free = freeZoneId(stops, usedIds);
    usedIds.add(free);
    return { zoneId: free, name: names[at]! };
  });
}

function groups(stops: readonly Stop[], asOfDay: number): Stop[][] {
  const byKey = new Map<string, Stop[]>();
  for (const stop of stops) {
    const key = groupKey(stop, asOfDay);
    const group = byKey.get(key);
    if (group === undefined) byKey.set(key, [stop]);
    else group.push(stop);
  }
  return [...byKey.values()];
}

/** The stops of an island parted into days. */
function crewDays(island: readonly Stop[], streets: Streets, hoursPerDay: number): Stop[][] {
  const xy = stopPositions(island);
  const walking = walkingAmong(island, xy, streets);
  const sides = walking.sideOf.map((side, at) => (isInLane(island[at]!) ? side : null));
  const route = routeThrough(xy, (numbers) =>
    withToll(walking.distances(numbers), (a, b) => sides[numbers[a]!] !== sides[numbers[b]!], OTHER_SIDE_M),
  );
  const starts = splitRoute(
    route.map((stop, at) => ({
      hours: island[stop]!.hours,
      stepM: at === 0 ? 0 : walking.stepM(route[at - 1]!, stop),
      firstDay: island[stop]!.firstDay,
      lastDay: island[stop]!.lastDay,
      dueDay: island[stop]!.dueDay,
    })),
    { hoursPerDay, longestStepM: LONGEST_STEP_M },
  );
  return starts.map((start, at) =>
    route
      .slice(start, starts[at + 1] ?? route.length)
      .sort((a, b) => a - b)
      .map((stop) => island[stop]!),
  );
}

/** Most urgent, soonest due, least restricted crew, first tree. */
function byUrgency(a: readonly Stop[], b: readonly Stop[]): number {
  return (
    URGENCIES.indexOf(urgencyOf(a)) - URGENCIES.indexOf(urgencyOf(b)) ||
    dueDayOf(a) - dueDayOf(b) ||
    CREWS.indexOf(crewOf(a)) - CREWS.indexOf(crewOf(b)) ||
    firstRow(a) - firstRow(b)
  );
}

const firstRow = (stops: readonly Stop[]): number => Math.min(...stops.map(({ tree }) => tree.row));
