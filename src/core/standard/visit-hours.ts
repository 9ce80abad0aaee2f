import type { Crew } from "../model/terms.ts";
import type { Standard } from "./standard.ts";

/** Crew-hours of one visit to a tree by its stem diameter in meters: minutes of work and set-up (standard, labor table), to the second. */
export function visitHoursOf(stemM: number, standard: Standard): number {
  const { minutesPerTree, setUpMinutes } = standard.crew;
  const row = minutesPerTree.find(({ dbhBelowM }) => stemM < dbhBelowM) ?? minutesPerTree.at(-1);
  return Math.round((((row?.minutes ?? 0) + setUpMinutes) / 60) * 1000) / 1000;
}

/** Person-hours of crew-hours: times the people in a crew of that kind (standard, a setting). */
export const personHoursOf = (crewHours: number, crew: Crew, standard: Standard): number =>
  crewHours * standard.crew.people[crew];
