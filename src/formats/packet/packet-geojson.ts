import type { Feature, FeatureCollection, MultiPolygon, Point } from "geojson";
import type { TreeSetting } from "../../core/model/conflict.ts";
import type { Zone } from "../../core/model/zone.ts";
import { PACKET_COLUMNS, rowsOf } from "../../core/packet/packet-rows.ts";
import type { ZoneStop } from "../../core/packet/zone-stops.ts";
import { boughProperties } from "../../core/plan/bough-properties.ts";

type Flat = Record<string, string | number | boolean | null>;

/**
 * The zone's outline and, in order of work, its trees with the packet's columns and the plan's `bough_` members; longitude and latitude.
 * Holds no other zone's trees and no column that is not mapped.
 */
export function packetGeoJson(zone: Zone, stops: readonly ZoneStop[]): FeatureCollection<Point | MultiPolygon, Flat> {
  const rows = rowsOf(stops);
  const trees = stops.map(({ tree, prescription, conflicts, setting }, at): Feature<Point, Flat> => {
    const { cells, lonDeg, latDeg } = rows[at]!;
    const packet = Object.fromEntries(PACKET_COLUMNS.map((column, index) => [column, cells[index] ?? null]));
    const bough = boughProperties(tree, prescription, conflicts, setting ?? unknownSetting(tree.row), zone);
    return {
      type: "Feature",
      geometry: { type: "Point", coordinates: [lonDeg, latDeg] },
      properties: { part: "tree", ...packet, ...bough },
    };
  });
  const outline: Feature<MultiPolygon, Flat> = {
    type: "Feature",
    geometry: zone.area,
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

/** For a tree whose setting the plan does not have: nothing near it is known. */
const unknownSetting = (treeRow: number): TreeSetting => ({
  treeRow,
  conductorsKnown: false,
  conductor: null,
  road: null,
  walkDistanceM: null,
  notChecked: [],
});
