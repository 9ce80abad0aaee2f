import type { Drawing } from "../crown/drawing.ts";
import type { Plan } from "../model/plan.ts";
import type { Zone } from "../model/zone.ts";
import type { Standard } from "../standard/standard.ts";
import { formatDate } from "../units/format-date.ts";
import { formatLength } from "../units/format-length.ts";
import { zoneNoticeLines } from "./notice-lines.ts";
import { CREW_WORDS, capitalized, placeText, URGENCY_WORDS, unique } from "./packet-words.ts";
import { drawZoneMap } from "./zone-map.ts";
import type { ZoneStop } from "./zone-stops.ts";

export interface CoverPage {
  readonly subtitle: string;
  readonly figures: readonly (readonly [label: string, value: string])[];
  readonly map: Drawing;
  readonly cautions: readonly string[];
  /** Where help is sent: place and coordinates of the first tree. */
  readonly location: string;
  /** Left blank, to be filled in by hand. */
  readonly emergency: readonly string[];
  readonly notChecked: string | null;
}

/** Size of the map in millimeters: the width of the type area of A4, the narrower of the two papers. */
export const MAP_MM: readonly [widthMm: number, heightMm: number] = [182, 98];

export function coverPage(plan: Plan, zone: Zone, stops: readonly ZoneStop[], standard: Standard): CoverPage {
  const { units } = plan.options;
  const isLate = stops.some(({ visit }) => visit.overdue);
  return {
    subtitle: zone.streets.length === 0 ? "Off the street network" : zone.streets.join(", "),
    figures: [
      ["Due", `${formatDate(zone.due)}${isLate ? ", overdue" : ""}`],
      ["Allowed", `${formatDate(zone.windowStart)} – ${formatDate(zone.windowEnd)}`],
      ["Crew", capitalized(CREW_WORDS[zone.crew])],
      ["Crew hours", zone.hours.toFixed(1)],
      ["Trees", String(new Set(zone.treeIds).size)],
      ["Walking", formatLength(zone.walkM, units)],
      ["Urgency", capitalized(URGENCY_WORDS[zone.urgency])],
      ["Standard", standard.id],
    ],
    map: drawZoneMap(plan, zone, stops, { widthMm: MAP_MM[0], heightMm: MAP_MM[1] }),
    cautions: unique([...zone.hazards, ...zoneNoticeLines(zone, stops, standard.notices)]),
    location: locationOf(stops),
    emergency: [
      "Emergency number",
      "Where to send help (address, cross street)",
      "Nearest emergency room",
      "Utility emergency line",
      "Supervisor",
      "First aid (who, where)",
      "Steep, soft or uneven ground at",
    ],
    notChecked:
      plan.notChecked.length === 0
        ? null
        : `Not checked for any tree: ${plan.notChecked.join(", ").replaceAll("-", " ")}. Look for them on site.`,
  };
}

/** Place and coordinates of the first stop, for a dispatcher; five decimals are about a meter. */
function locationOf([first]: readonly ZoneStop[]): string {
  if (first === undefined) return "";
  const { tree } = first;
  const degrees = `${tree.latDeg.toFixed(5)}, ${tree.lonDeg.toFixed(5)}`;
  return `Tree 1: ${placeText(tree)}; latitude, longitude ${degrees} (WGS 84)`;
}
