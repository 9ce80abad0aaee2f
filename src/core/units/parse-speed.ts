import type { ColumnUnit } from "../model/column-map.ts";
import { KMH_PER_MPH } from "./length.ts";
import { parseDecimal } from "./parse-length.ts";

const KMH_IN: ReadonlyMap<string, number> = new Map([
  ["km/h", 1],
  ["kmh", 1],
  ["kph", 1],
  ["kmph", 1],
  ["mph", KMH_PER_MPH],
]);

/** Above this a figure in km/h is no street's speed; common practice, no source. */
const MAX_KMH = 200;

/**
 * A speed in km/h from a number or a text such as `30 mph` or `50`, or null when it is none (`signals`, 0, above 200 km/h).
 * A bare number is in `unit` (`mph`, or else km/h); a unit in the text outranks it.
 */
export function parseSpeedKmh(value: unknown, unit: ColumnUnit): number | null {
  if (typeof value === "number") return inRange(value * (KMH_IN.get(unit) ?? 1));
  if (typeof value !== "string" || value.length > 256) return null;
  const text = value.trim().toLowerCase();
  let at = 0;
  while (at < text.length && "0123456789.,".includes(text[at]!)) at += 1;
  const amount = parseDecimal(text.slice(0, at));
  const named = text.slice(at).trim();
  const factor = KMH_IN.get(named === "" ? unit : named) ?? (named === "" ? 1 : null);
  return amount === null || factor === null ? null : inRange(amount * factor);
}

const inRange = (speedKmh: number): number | null => (speedKmh > 0 && speedKmh <= MAX_KMH ? speedKmh : null);
