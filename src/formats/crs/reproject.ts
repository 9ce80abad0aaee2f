import { type Extent, widen } from "../geojson/extent.ts";
import type { CoordinateSystem } from "./system.ts";
import type { SystemTally } from "./system-faults.ts";

type ToLonLat = NonNullable<CoordinateSystem["toLonLat"]>;

/** Nine decimals of a degree are a tenth of a millimeter: 111 km x 1e-9 (arithmetic). */
const DECIMALS = 1e9;

/**
 * Coordinates of a checked geometry in longitude and latitude, rounded to nine decimals; further numbers of a position are kept.
 * Widens `extent` by every new position and counts it. Null where one has no finite place in the system.
 */
export function reproject(
  coordinates: readonly unknown[],
  toLonLat: ToLonLat,
  extent: Extent,
  tally: Pick<SystemTally, "positions"> = { positions: 0 },
): unknown[] | null {
  if (typeof coordinates[0] === "number") {
    tally.positions += 1;
    return reprojectPosition(coordinates as readonly number[], toLonLat, extent);
  }
  const result: unknown[] = [];
  for (const part of coordinates) {
    const converted = reproject(part as readonly unknown[], toLonLat, extent, tally);
    if (converted === null) return null;
    result.push(converted);
  }
  return result;
}

function reprojectPosition(position: readonly number[], toLonLat: ToLonLat, extent: Extent): number[] | null {
  const [rawLonDeg, rawLatDeg] = toLonLat(position[0]!, position[1]!);
  if (!Number.isFinite(rawLonDeg) || !Number.isFinite(rawLatDeg)) return null;
  const lonDeg = Math.round(rawLonDeg * DECIMALS) / DECIMALS;
  const latDeg = Math.round(rawLatDeg * DECIMALS) / DECIMALS;
  widen(extent, lonDeg, latDeg);
  return [lonDeg, latDeg, ...position.slice(2)];
}
