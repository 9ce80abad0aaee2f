import type { ColumnUnit } from "../model/column-map.ts";
import { parseDecimal } from "./parse-length.ts";

/**
 * A share from 0 to 1 from a number or a text such as `20 %`, `20%` or `0.2`, or null when it is not one or lies outside.
 * A bare number is in `unit`: `percent`, or else a share already; a percent sign in the text outranks it.
 */
export function parseShare(value: unknown, unit: ColumnUnit): number | null {
  if (typeof value === "number") return within(unit === "percent" ? value / 100 : value);
  if (typeof value !== "string" || value.length > 256) return null;
  const text = value.trim().toLowerCase();
  const isPercent = text.endsWith("%") || text.endsWith("percent");
  const amount = parseDecimal(isPercent ? text.slice(0, text.endsWith("%") ? -1 : -7) : text);
  if (amount === null) return null;
  return within(isPercent || unit === "percent" ? amount / 100 : amount);
}

const within = (share: number): number | null => (share >= 0 && share <= 1 ? share : null);
