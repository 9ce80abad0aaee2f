import type { Position } from "geojson";
import { escapeText } from "../../core/crown/drawing-to-svg.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import type { PacketRow } from "../../core/packet/packet-rows.ts";

/** The zone's outline, walk and trees as KML 2.2, with no outside icons or links. */
export function packetKml(plan: Plan, zone: Zone, rows: readonly PacketRow[]): string {
  const parts = zone.area.coordinates.map((rings) => `<Polygon>${rings.map(boundary).join("")}</Polygon>`);
  const walk = rows.map(({ lonDeg, latDeg }): Position => [lonDeg, latDeg]);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<kml xmlns="http://www.opengis.net/kml/2.2"><Document>',
    `<name>${escapeText(zone.name)}</name>`,
    `<description>${escapeText(`Zone ${zone.zoneId}, plan ${plan.planId}, revision ${plan.revision}`)}</description>`,
    '<Style id="zone"><LineStyle><color>ff24272a</color><width>2</width></LineStyle><PolyStyle><fill>0</fill></PolyStyle></Style>',
    `<Placemark><name>${escapeText(zone.name)}</name><styleUrl>#zone</styleUrl><MultiGeometry>${parts.join("")}</MultiGeometry></Placemark>`,
    ...(walk.length > 1
      ? [
          `<Placemark><name>Order of work</name><styleUrl>#zone</styleUrl><LineString><coordinates>${coordinates(walk)}</coordinates></LineString></Placemark>`,
        ]
      : []),
    ...rows.map(
      ({ lonDeg, latDeg, label, note }) =>
        `<Placemark><name>${escapeText(label)}</name><description>${escapeText(note)}</description>` +
        `<Point><coordinates>${coordinates([[lonDeg, latDeg]])}</coordinates></Point></Placemark>`,
    ),
    "</Document></kml>",
    "",
  ].join("\n");
}

function boundary(ring: readonly Position[], at: number): string {
  const name = at === 0 ? "outerBoundaryIs" : "innerBoundaryIs";
  return `<${name}><LinearRing><coordinates>${coordinates(ring)}</coordinates></LinearRing></${name}>`;
}

const coordinates = (positions: readonly Position[]): string =>
  positions.map(([lonDeg, latDeg]) => `${lonDeg!.toFixed(7)},${latDeg!.toFixed(7)}`).join(" ");
