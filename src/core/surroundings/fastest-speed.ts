import type { ColumnUnit } from "../model/column-map.ts";
import { parseSpeedKmh } from "../units/parse-speed.ts";

/**
 * The fastest of the speeds in a value, km/h, or null: `30 mph; 40 mph` is 40 mph, so that sight distances are never short. Units as in
 * `parseSpeedKmh`.
 */
export function fastestSpeedKmh(value: unknown, unit: ColumnUnit): number | null {
  if (typeof value !== "string" || value.length > 256) return parseSpeedKmh(value, unit);
  let fastest: number | null = null;
  for (const part of value.split(/[;|]/)) {
    const speedKmh = parseSpeedKmh(part, unit);
    if (speedKmh !== null && (fastest === null || speedKmh > fastest)) fastest = speedKmh;
  }
  return fastest;
}
