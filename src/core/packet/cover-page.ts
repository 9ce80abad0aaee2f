import type { Drawing } from "../crown/drawing.ts";
import type { Plan } from "../model/plan.ts";
import type { Zone } from "../model/zone.ts";
import type { Standard } from "../standard/standard.ts";
import { formatDate } from "../units/format-date.ts";
import { formatLength } from "../units/format-length.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { CLOSURE_WORDS, CREW_WORDS, capitalized, URGENCY_WORDS, unique } from "./packet-words.ts";
import { drawZoneMap } from "./zone-map.ts";
import type { ZoneStop } from "./zone-stops.ts";

export interface CoverPage {
  readonly subtitle: string;
  readonly figures: readonly (readonly [label: string, value: string])[];
  readonly map: Drawing;
  readonly cautions: readonly string[];
  readonly closure: { readonly title: string; readonly lines: readonly string[]; readonly note: string };
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
      ["Walk", formatLength(zone.walkM, units)],
      ["Urgency", capitalized(URGENCY_WORDS[zone.urgency])],
      ["Standard", standard.id],
    ],
    map: drawZoneMap(plan, zone, stops, { widthMm: MAP_MM[0], heightMm: MAP_MM[1] }),
    cautions: unique(zone.hazards),
    closure: closureText(zone, units),
    emergency: [
      "Emergency number",
      "Where to send help (address, cross street)",
      "Nearest emergency room",
      "Utility emergency line",
      "Supervisor",
    ],
    notChecked:
      plan.notChecked.length === 0
        ? null
        : `Not checked for any tree: ${plan.notChecked.join(", ").replaceAll("-", " ")}. Look for them on site.`,
  };
}

function closureText(zone: Zone, units: "us" | "metric"): CoverPage["closure"] {
  const { kind, roadName, speedKmh, taperM, bufferM, signSpacingM, note } = zone.closure;
  const lines: string[] = [];
  if (roadName !== null) lines.push(`Road: ${roadName}`);
  if (speedKmh !== null) {
    lines.push(
      `Speed: ${units === "us" ? `${Math.round(speedKmh / KMH_PER_MPH)} mph` : `${Math.round(speedKmh)} km/h`}`,
    );
  }
  if (taperM !== null) lines.push(`Taper: ${formatLength(taperM, units)}`);
  if (bufferM !== null) lines.push(`Buffer: ${formatLength(bufferM, units)}`);
  if (signSpacingM.length > 0) {
    lines.push(`Sign spacing: ${signSpacingM.map((spacingM) => formatLength(spacingM, units)).join(", ")}`);
  }
  return {
    title: CLOSURE_WORDS[kind],
    lines,
    note: note.toLowerCase().includes("confirm with the road authority")
      ? note
      : `${note} Draft: confirm with the road authority before any sign is set out.`.trim(),
  };
}
