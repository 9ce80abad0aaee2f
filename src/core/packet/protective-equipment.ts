import type { Zone } from "../model/zone.ts";
import { dropZoneM } from "./drop-zone.ts";
import type { ZoneStop } from "./zone-stops.ts";

/**
 * What people wear for a zone's work, a sentence each. Common practice of the trade, second-hand and from memory, save the 85 dBA, the action
 * level of 29 CFR 1910.95 (second-hand): the employer's rules and local law decide, and the last sentence says so.
 */
export function protectiveEquipment(zone: Zone, stops: readonly ZoneStop[]): string[] {
  const tasks = stops.flatMap(({ visit }) => visit.tasks);
  const isSawn = tasks.some(({ method }) => method !== "hand");
  const isByRoad = stops.some(({ tree, setting }) => (setting?.road?.distanceM ?? Infinity) <= dropZoneM(tree));
  const isAloft = zone.crew !== "ground";
  return [
    "Everybody at the work: helmet, eye protection, gloves, sturdy boots.",
    ...(isByRoad ? ["Beside a road: high-visibility clothing."] : []),
    ...(isSawn
      ? [
          `Saws and chipper: hearing protection, from 85 dBA on. Chain saw: leg protection on the ground${isAloft ? ", a second attachment to the tree or lift aloft" : ""}.`,
        ]
      : []),
    ...(isAloft ? ["Climbing: saddle and line. Lift: harness, tied to the lift."] : []),
    ...(zone.crew === "line-clearance" || zone.crew === "utility"
      ? ["Near lines: tools and clothing as the line's owner and the employer's line-clearance rules ask."]
      : []),
    "The trade's usual; the employer's rules and local law decide.",
  ];
}
