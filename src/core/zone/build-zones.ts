import type { Plan } from "../model/plan.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import { CREWS, URGENCIES } from "../model/terms.ts";
import type { Zone } from "../model/zone.ts";
import type { Standard } from "../standard/standard.ts";
import { dateOfDay, dayNumber, type IsoDate } from "../units/calendar.ts";
import { closureOf } from "./closure.ts";
import { islandsOf } from "./islands.ts";
import { orderOfWork, walkM } from "./order-of-work.ts";
import { zoneOutline } from "./outline.ts";
import { routeThrough } from "./route.ts";
import { splitRoute } from "./split-route.ts";
import { groupKey, plannedStops, type Stop, stopPositions } from "./stops.ts";
import { zoneHazards } from "./zone-hazards.ts";
import { zoneId } from "./zone-id.ts";
import { streetsOf, zoneNames } from "./zone-name.ts";

/** Farthest move in meters within a zone; beyond it a crew packs up. Our policy. */
const LONGEST_STEP_M = 300;

/**
 * Work zones of about a crew-day from the next visit of every tree whose work is due by the end of its next window, the most urgent first, all `draft`.
 *
 * Visits are parted by crew, urgency and the time of year of their work, then into islands no step over 300 m joins; in each a short way through all
 * stops is searched for and cut into days at the least cost: route first, cluster second (Beasley 1983). So a tree that is added far away changes no
 * zone but its own. Every such visit is in exactly one zone; no zone mixes crews. An island with less work than three quarters of a
 * day stays a small zone and says so. Distances are straight, not along streets; barriers such as rivers are not known here.
 */
export function buildZones(plan: Plan, standard: Standard): Zone[] {
  const roads = new Map<string, SurroundingFeature>();
  for (const feature of plan.surroundings) if (feature.layer === "roads") roads.set(feature.id, feature);

  const days = groups(plannedStops(plan), dayNumber(plan.options.asOf))
    .flatMap((group) => islandsOf(group, LONGEST_STEP_M))
    .flatMap((island) => crewDays(island, standard));
  days.sort(byUrgency);

  const names = zoneNames(days, stopPositions(days.map((stops) => stops[0]!)));
  const usedIds = new Map<string, number>();
  return days.map((stops, at) => {
    const id = zoneId(stops);
    const timesUsed = (usedIds.get(id) ?? 0) + 1;
    usedIds.set(id, timesUsed);
    return zoneOf(timesUsed === 1 ? id : `${id}-${timesUsed}`, names[at]!, stops, roads, plan, standard);
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

/** The stops of an island parted into days, each in order of work. */
function crewDays(island: readonly Stop[], standard: Standard): Stop[][] {
  const xy = stopPositions(island);
  const route = routeThrough(xy);
  const starts = splitRoute(
    route.map((stop, at) => ({
      hours: island[stop]!.visit.hours,
      stepM: at === 0 ? 0 : walkM([route[at - 1]!, stop], xy),
      firstDay: island[stop]!.firstDay,
      lastDay: island[stop]!.lastDay,
      dueDay: island[stop]!.dueDay,
    })),
    { hoursPerDay: standard.crew.hoursPerDay, longestStepM: LONGEST_STEP_M },
  );
  return starts.map((start, at) => {
    const members = route.slice(start, starts[at + 1] ?? route.length).sort((a, b) => a - b);
    const stops = members.map((stop) => island[stop]!);
    return orderOfWork(stops, stopPositions(stops)).map((place) => stops[place]!);
  });
}

/** Most urgent, soonest due, least restricted crew, first tree. */
function byUrgency(a: readonly Stop[], b: readonly Stop[]): number {
  const [first, second] = [a[0]!, b[0]!];
  const [dueA, dueB] = [dueOf(a), dueOf(b)];
  return (
    URGENCIES.indexOf(first.visit.urgency) - URGENCIES.indexOf(second.visit.urgency) ||
    (dueA < dueB ? -1 : dueA > dueB ? 1 : 0) ||
    CREWS.indexOf(first.visit.crew) - CREWS.indexOf(second.visit.crew) ||
    first.tree.row - second.tree.row
  );
}

function zoneOf(
  id: string,
  name: string,
  stops: readonly Stop[],
  roads: ReadonlyMap<string, SurroundingFeature>,
  plan: Plan,
  standard: Standard,
): Zone {
  const { crew, urgency } = stops[0]!.visit;
  const firstDay = Math.max(...stops.map((stop) => stop.firstDay));
  const lastDay = Math.min(...stops.map((stop) => stop.lastDay));
  const hours = hundredths(stops.reduce((sum, { visit }) => sum + visit.hours, 0));
  const { units } = plan.options;
  return {
    zoneId: id,
    name,
    state: "draft",
    crew,
    visitIds: stops.map(({ visit }) => visit.visitId),
    treeIds: stops.map(({ tree }) => tree.id),
    hours,
    windowStart: dateOfDay(firstDay),
    windowEnd: dateOfDay(lastDay),
    due: dueOf(stops),
    urgency,
    streets: streetsOf(stops),
    walkM: hundredths(
      walkM(
        stops.map((_, at) => at),
        stopPositions(stops),
      ),
    ),
    hazards: zoneHazards({ stops, crew, hours, firstDay, lastDay }, standard, units),
    closure: closureOf(stops, roads, standard, units),
    area: zoneOutline(stops),
  };
}

/** The earliest due date of the stops, each not before its own window opens. */
const dueOf = (stops: readonly Stop[]): IsoDate => dateOfDay(Math.min(...stops.map((stop) => stop.dueDay)));

const hundredths = (value: number): number => Math.round(value * 100) / 100;
