import type { ZoneOptions } from "../model/plan.ts";
import { CREWS, type Crew } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";

/** What a crew has to work with, settled. */
export interface ZoneSettings {
  readonly hoursPerDay: number;
  readonly people: Readonly<Record<Crew, number>>;
  readonly hasLift: boolean;
}

/** Settings from options and a standard. Throws RangeError for hours outside 1 to 24 and crews outside 1 to 20 people. */
export function zoneSettings(options: ZoneOptions, { crew }: Standard): ZoneSettings {
  const hoursPerDay = options.crewHours ?? crew.hoursPerDay;
  if (!(hoursPerDay >= 1 && hoursPerDay <= 24)) {
    throw new RangeError(`Expected a crew-day of 1 to 24 hours, got ${hoursPerDay}`);
  }
  const people = { ...crew.people, ...options.people };
  for (const kind of CREWS) {
    if (!(people[kind] >= 1 && people[kind] <= 20)) {
      throw new RangeError(`Expected 1 to 20 people in a ${kind} crew, got ${people[kind]}`);
    }
  }
  return { hoursPerDay, people, hasLift: options.hasLift ?? true };
}

/**
 * Crew-hours of a visit for a crew of so many people: person-hours stay the same, so that a crew half as large takes twice as long. Our policy;
 * the labor table does not say for how many people it is (standard, `crew.people`).
 */
export const hoursOfCrew = (visitHours: number, crew: Crew, settings: ZoneSettings, { crew: rule }: Standard): number =>
  (visitHours * rule.people[crew]) / settings.people[crew];
