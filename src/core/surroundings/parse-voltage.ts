import type { ColumnUnit } from "../model/column-map.ts";
import { parseDecimal } from "../units/parse-length.ts";

/** Highest voltage taken as one, in volts; the highest line ever built ran at 1,150 kV. */
const MAX_V = 1_200_000;

/**
 * Line-to-line volts from a number or a text such as `11000`, `12.47 kV`, `11000;400` (the highest counts), or null. A bare number takes
 * `unit` (volts unless it is kV); a unit in the text outranks it.
 */
export function parseVoltageV(value: unknown, unit: ColumnUnit): number | null {
  if (typeof value === "number") return plausible(value * (unit === "kV" ? 1000 : 1));
  if (typeof value !== "string" || value.length > 256) return null;
  let highest: number | null = null;
  for (const part of value.toLowerCase().split(/[;|/]/)) {
    const text = part.trim();
    const name = text.endsWith("kv") ? "kv" : text.endsWith("v") ? "v" : "";
    const amount = parseDecimal(text.slice(0, text.length - name.length));
    if (amount === null) continue;
    const isKv = name === "kv" || (name === "" && unit === "kV");
    const voltageV = plausible(amount * (isKv ? 1000 : 1));
    if (voltageV !== null && (highest === null || voltageV > highest)) highest = voltageV;
  }
  return highest;
}

const plausible = (voltageV: number): number | null => (voltageV > 0 && voltageV <= MAX_V ? voltageV : null);
