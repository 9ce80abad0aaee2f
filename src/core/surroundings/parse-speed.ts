import type { ColumnUnit } from "../model/column-map.ts";
import { KMH_PER_MPH } from "../units/length.ts";
import { parseDecimal } from "../units/parse-length.ts";

/** Fastest speed taken as one, km/h; no road in the world posts more. */
const MAX_KMH = 160;

/**
 * A speed in km/h from a number or a text such as `25 mph`, `50`, `40 km/h` or `30 mph; 40 mph` (the fastest counts, so that sight
 * distances are never short), or null. A bare number takes `unit`; a unit in the text outranks it.
 */
export function parseSpeedKmh(value: unknown, unit: ColumnUnit): number | null {
  if (typeof value === "number") return plausible(value * (unit === "mph" ? KMH_PER_MPH : 1));
  if (typeof value !== "string" || value.length > 256) return null;
  let fastest: number | null = null;
  for (const part of value.toLowerCase().split(/[;|]/)) {
    const text = part.trim();
    const end = endOfNumber(text);
    const amount = parseDecimal(text.slice(0, end));
    const name = text.slice(end).trim();
    const isMph = name === "" ? unit === "mph" : name === "mph" || name === "mi/h";
    if (amount === null || (!isMph && name !== "" && !["km/h", "kmh", "kph", "kmph"].includes(name))) continue;
    const speedKmh = plausible(amount * (isMph ? KMH_PER_MPH : 1));
    if (speedKmh !== null && (fastest === null || speedKmh > fastest)) fastest = speedKmh;
  }
  return fastest;
}

const plausible = (speedKmh: number): number | null => (speedKmh > 0 && speedKmh <= MAX_KMH ? speedKmh : null);

function endOfNumber(text: string): number {
  let at = 0;
  while (at < text.length && "0123456789.,".includes(text[at]!)) at += 1;
  return at;
}
