import type { Feature, FeatureCollection, Point, Polygon } from "geojson";
import type { Plan } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import { PACKET_COLUMNS, packetRows } from "../../core/packet/packet-rows.ts";
import { boughProperties } from "../../core/plan/bough-properties.ts";

type Flat = Record<string, string | number | boolean | null>;

/**
 * The zone's outline and, in order of work, its trees with the packet's columns and the plan's `bough_` members; longitude and latitude.
 * Holds no other zone's trees and no column that is not mapped.
 */
export function packetGeoJson(plan: Plan, zone: Zone): FeatureCollection<Point | Polygon, Flat> {
  const rows = new Map(plan.prescriptions.flatMap((one) => one.visits.map((visit) => [visit.visitId, visit.treeRow])));
  const trees = packetRows(plan, zone).map((row, at): Feature<Point, Flat> => {
    const treeRow = rows.get(zone.visitIds[at]!)!;
    const tree = plan.trees[treeRow]!;
    const prescription = plan.prescriptions.find((one) => one.treeRow === treeRow)!;
    const setting = plan.settings.find((one) => one.treeRow === treeRow) ?? emptySetting(treeRow);
    const conflicts = plan.conflicts.filter((one) => one.treeRow === treeRow);
    const packet = Object.fromEntries(PACKET_COLUMNS.map((column, index) => [column, row.cells[index] ?? null]));
    return {
      type: "Feature",
      geometry: { type: "Point", coordinates: [row.lonDeg, row.latDeg] },
      properties: { part: "tree", ...packet, ...boughProperties(tree, prescription, conflicts, setting, zone) },
    };
  });
  const outline: Feature<Polygon, Flat> = {
    type: "Feature",
    geometry: zone.polygon,
    properties: {
      part: "zone",
      zone: zone.zoneId,
      name: zone.name,
      state: zone.state,
      crew: zone.crew,
      hours: zone.hours,
      due: zone.due,
      window_start: zone.windowStart,
      window_end: zone.windowEnd,
      closure: zone.closure.kind,
      hazards: zone.hazards.join(" "),
    },
  };
  return { type: "FeatureCollection", features: [outline, ...trees] };
}

const emptySetting = (treeRow: number) => ({
  treeRow,
  conductorsKnown: false,
  conductor: null,
  road: null,
  walkDistanceM: null,
  notChecked: [],
});
