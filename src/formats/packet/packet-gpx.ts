import { escapeText } from "../../core/crown/drawing-to-svg.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import type { PacketRow } from "../../core/packet/packet-rows.ts";

/** The zone's trees as GPX 1.1 waypoints and a route through them, in order of work. */
export function packetGpx(plan: Plan, zone: Zone, rows: readonly PacketRow[]): string {
  const point = (tag: "wpt" | "rtept", { lonDeg, latDeg, label, note }: PacketRow) =>
    `<${tag} lat="${latDeg.toFixed(7)}" lon="${lonDeg.toFixed(7)}">` +
    `<name>${escapeText(label)}</name><desc>${escapeText(note)}</desc></${tag}>`;
  const name = escapeText(`${zone.name} (${zone.zoneId}), plan ${plan.planId}, revision ${plan.revision}`);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="Boughline" xmlns="http://www.topografix.com/GPX/1/1">',
    `<metadata><name>${name}</name></metadata>`,
    ...rows.map((row) => point("wpt", row)),
    `<rte><name>${escapeText(zone.name)}</name>`,
    ...rows.map((row) => point("rtept", row)),
    "</rte>",
    "</gpx>",
    "",
  ].join("\n");
}
