import type { Standard, VoltageBand } from "./standard.ts";

/**
 * The distance in meters that people who are not line-clearance qualified, their tools and the branches they hold keep from a
 * conductor, by its line-to-line voltage. An unknown voltage, and one above the table, takes the largest distance of the table.
 *
 * 29 CFR 1910.333(c)(3)(i)(A) in the shipped standard, by whole steps at the top of each class. For planning only: the line's owner
 * tells the voltage, and above the table the distance.
 */
export function approachDistanceM(standard: Standard, voltageV: number | null): number {
  return distanceInM(standard.conductor.approach, voltageV);
}

/**
 * The distance in meters that cranes and loaders keep from a conductor, by line voltage; null where the standard has no table or the
 * voltage is above it, which is for an engineer to decide. An unknown voltage takes the largest distance of the table.
 */
export function equipmentDistanceM(standard: Standard, voltageV: number | null): number | null {
  const bands = standard.conductor.equipmentApproach;
  if (bands === null || (voltageV !== null && voltageV > bands.at(-1)!.upToV)) return null;
  return distanceInM(bands, voltageV);
}

function distanceInM(bands: readonly VoltageBand[], voltageV: number | null): number {
  const band = voltageV === null ? undefined : bands.find(({ upToV }) => voltageV <= upToV);
  return band?.distanceM ?? bands.reduce((most, { distanceM }) => Math.max(most, distanceM), 0);
}
