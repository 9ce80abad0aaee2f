import type { Zone } from "../../model/zone.ts";
import type { ZoneIdentity } from "../describe-zone.ts";
import { type Stop, stopPositions } from "../stops.ts";
import { freeZoneId } from "../zone-id.ts";
import { freeZoneName } from "../zone-name.ts";
import type { ZoneDesk } from "./zone-desk.ts";

/** A new draft's id and name, which no zone has; named after its street, else after where it lies from the middle of the plan's work. */
export function freshZone(desk: ZoneDesk, stops: readonly Stop[], zones: readonly Zone[]): ZoneIdentity {
  const [middleLonDeg, middleLatDeg] = middleOf(desk.stops);
  const first = stops[0]!;
  const middle = { ...first, tree: { ...first.tree, lonDeg: middleLonDeg, latDeg: middleLatDeg } };
  const xy = stopPositions([middle, first]);
  return {
    zoneId: freeZoneId(stops, new Set(zones.map(({ zoneId }) => zoneId))),
    name: freeZoneName(stops, [xy[2]! - xy[0]!, xy[3]! - xy[1]!], new Set(zones.map(({ name }) => name))),
    state: "draft",
  };
}

function middleOf(stops: readonly Stop[]): readonly [lonDeg: number, latDeg: number] {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { tree } of stops) {
    west = Math.min(west, tree.lonDeg);
    east = Math.max(east, tree.lonDeg);
    south = Math.min(south, tree.latDeg);
    north = Math.max(north, tree.latDeg);
  }
  return [(west + east) / 2, (south + north) / 2];
}
