import type { Crew } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { dateOfDay } from "../units/calendar.ts";
import { formatDate } from "../units/format-date.ts";
import { formatLength } from "../units/format-length.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { withThousands } from "../units/with-thousands.ts";
import { LEAST_DAY_SHARE, MOST_DAY_SHARE } from "./split-route.ts";
import { DROP_MARGIN_M, dropReachM, type Stop } from "./stops.ts";

/** What the hazards of a zone are told from. */
export interface ZoneWork {
  /** In order of work. */
  readonly stops: readonly Stop[];
  readonly crew: Crew;
  readonly hours: number;
  /** Hours of a crew-day. */
  readonly hoursPerDay: number;
  readonly firstDay: number;
  readonly lastDay: number;
  /** Whether its trees were chosen by hand. */
  readonly isByHand?: boolean;
}

/**
 * What can hurt people or harm living things while a zone is worked, as plain sentences, worst first, each with who decides. Cautions
 * for planning only: they never say that the rest is safe.
 */
export function zoneHazards(work: ZoneWork, standard: Standard, units: "us" | "metric"): string[] {
  return [
    conductorHazard(work, units),
    trafficHazard(work, units),
    dropZoneHazard(work, units),
    walkHazard(work),
    weakTreeHazard(work),
    nestingHazard(work, standard),
    diseaseHazard(work),
    waitingCaution(work),
    dayCaution(work),
  ].filter((sentence) => sentence !== null);
}

function conductorHazard({ stops }: ZoneWork, units: "us" | "metric"): string | null {
  const near = stops.flatMap(({ setting }) => {
    const conductor = setting?.conductor ?? null;
    return conductor !== null && conductor.crownGapM <= conductor.approachM + DROP_MARGIN_M ? [conductor] : [];
  });
  if (near.length > 0) {
    const approachM = Math.max(...near.map((conductor) => conductor.approachM));
    const known = near.flatMap(({ voltageV }) => (voltageV === null ? [] : [voltageV]));
    const voltage =
      known.length === near.length
        ? `up to ${withThousands(Math.round(Math.max(...known)))} V`
        : "voltage not known for all of them";
    return `Overhead conductors at ${countOf(near.length, "tree")}, ${voltage}: people, tools and branches within ${formatLength(approachM, units)} of a line are for line-clearance arborists only; the line's owner and local rules decide.`;
  }
  if (stops.some(({ setting }) => setting === null || !setting.conductorsKnown)) {
    return "Where overhead lines run is not known for all of these trees: look up before work, and leave anything near a line to line-clearance arborists.";
  }
  return null;
}

function trafficHazard({ stops }: ZoneWork, units: "us" | "metric"): string | null {
  const beside = stops.filter((stop) => (stop.setting?.road?.distanceM ?? Infinity) <= dropReachM(stop));
  if (beside.length === 0) return null;
  const speeds = beside.flatMap(({ setting }) => setting?.road?.speedKmh ?? []);
  const fastestKmh = Math.max(0, ...speeds);
  const speed = speeds.length === 0 ? "at a speed not known" : `at up to ${formatSpeed(fastestKmh, units)}`;
  const isFast = fastestKmh >= 45 * KMH_PER_MPH - 0.5 ? " Fast traffic." : "";
  return `Traffic ${speed} under or beside ${countOf(beside.length, "tree")}: traffic control as the road authority approves it.${isFast}`;
}

function dropZoneHazard({ stops }: ZoneWork, units: "us" | "metric"): string {
  const widestM = Math.max(...stops.map(dropReachM));
  return `Drop zone: nobody but the crew within the crown and ${formatLength(DROP_MARGIN_M, units)} around it (up to ${formatLength(widestM, units)} from a trunk); the crew leader widens it for longer branches, slope or wind.`;
}

function walkHazard({ stops }: ZoneWork): string | null {
  const count = stops.filter((stop) => (stop.setting?.walkDistanceM ?? Infinity) <= dropReachM(stop)).length;
  return count === 0
    ? null
    : `A walk or path lies in the drop zone of ${countOf(count, "tree")}: lead people around it as local rules ask.`;
}

function weakTreeHazard({ stops }: ZoneWork): string | null {
  const count = stops.filter(
    ({ tree }) => tree.condition === "dead" || ["hanger", "decay", "broken-limb"].some((one) => hasDefect(tree, one)),
  ).length;
  return count === 0
    ? null
    : `${countOf(count, "tree")} dead, decayed or with broken or hanging limbs: a licensed arborist looks before anybody climbs or stands below.`;
}

const hasDefect = (tree: Stop["tree"], name: string): boolean => (tree.defects as readonly string[]).includes(name);

function nestingHazard({ firstDay, lastDay }: ZoneWork, { nesting }: Standard): string | null {
  for (let day = firstDay; day <= lastDay && day < firstDay + 366; day += 1) {
    if (!isInSeason(dateOfDay(day).slice(5), nesting.from, nesting.to)) continue;
    return `Birds may be nesting from ${formatDate(dateOfDay(day))} on: look for nests before each tree and leave occupied ones; law and dates differ by place.`;
  }
  return null;
}

const isInSeason = (monthDay: string, from: string, to: string): boolean =>
  from <= to ? monthDay >= from && monthDay <= to : monthDay >= from || monthDay <= to;

function diseaseHazard({ stops }: ZoneWork): string | null {
  const count = stops.filter((stop) => stop.isDiseased).length;
  return count === 0
    ? null
    : `${countOf(count, "tree")} with diseased limbs, worked last: disinfect tools before the next tree and keep the wood apart as a licensed arborist or local rules ask.`;
}

function waitingCaution({ stops, firstDay }: ZoneWork): string | null {
  const count = stops.filter((stop) => stop.dueDay < firstDay).length;
  return count === 0
    ? null
    : `${countOf(count, "tree")} due before all windows of the zone are open (${formatDate(dateOfDay(firstDay))}): look whether they can wait.`;
}

function dayCaution({ stops, hours, hoursPerDay, isByHand }: ZoneWork): string | null {
  const share = hours / hoursPerDay;
  if (share > MOST_DAY_SHARE && stops.length === 1) {
    return `More than a crew-day (${hours.toFixed(1)} h) at one tree: plan a second day before it is started.`;
  }
  if (isByHand === true) {
    if (share > MOST_DAY_SHARE) {
      return `${hours.toFixed(1)} h of work in a crew-day of ${hoursPerDay} h, chosen by hand: plan a second day or split the zone.`;
    }
    return share < LEAST_DAY_SHARE ? `A short day, ${hours.toFixed(1)} of ${hoursPerDay} h, chosen by hand.` : null;
  }
  return share < LEAST_DAY_SHARE
    ? `An island of work, ${hours.toFixed(1)} of ${hoursPerDay} h: no zone near it has room for it with the same dates and a crew that may do it; plan a short day.`
    : null;
}

const countOf = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? "" : "s"}`;

const formatSpeed = (speedKmh: number, units: "us" | "metric"): string =>
  units === "us" ? `${Math.round(speedKmh / KMH_PER_MPH)} mph` : `${Math.round(speedKmh)} km/h`;
