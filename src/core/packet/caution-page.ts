import type { Zone } from "../model/zone.ts";
import type { ZoneCautions } from "./cautions.ts";
import { protectiveEquipment } from "./protective-equipment.ts";
import type { SeasonNotes } from "./season-notes.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** The page of cautions, read out before the work begins. */
export interface CautionPage {
  /** Standing cautions of every packet. */
  readonly standing: readonly string[];
  readonly equipment: readonly string[];
  /** The cautions that several trees share, each once under its number, with the numbers of the trees. */
  readonly shared: readonly string[];
  /** Why trees may be cut only then, where several share the reason. */
  readonly seasons: readonly string[];
}

/** Cautions that stand in every packet, whatever is in it. Our wording of common practice; local codes decide. */
export const STANDING_CAUTIONS: readonly string[] = [
  "This packet plans work; it does not say that a place is safe. Look over site and tree before every cut.",
  "Treat every conductor as live. Within the approach distance only line-clearance arborists work.",
  "Local codes, the road authority and a licensed arborist decide where this packet and the site differ.",
  "Slopes, soft ground, water and what lies under the ground are not in the plan: look before a lift is set up or anybody climbs.",
  "No topping. Stop and call when a tree needs more than its card says.",
];

export const cautionPage = (
  zone: Zone,
  stops: readonly ZoneStop[],
  cautions: ZoneCautions,
  seasons: SeasonNotes,
): CautionPage => ({
  standing: STANDING_CAUTIONS,
  equipment: protectiveEquipment(zone, stops),
  shared: cautions.shared,
  seasons: seasons.shared,
});
