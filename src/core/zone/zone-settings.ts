import type { Crew } from "../model/terms.ts";
import { CREWS } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";

/** What a crew has to work with; what is left out is the standard's. */
export interface ZoneOptions {
  /** Hours of work in a crew-day, breaks and the drive from the yard not counted. */
  readonly crewHours?: number;
  /** People in a crew of each kind. */
  readonly people?: Partial<Readonly<Record<Crew, number>>>;
  /** Whether aerial and line-clearance crews work from a lift, which then stands beside the tree; without one they climb. Default true. */
  readonly hasLift?: boolean;
}

/** The same, settled. */
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
