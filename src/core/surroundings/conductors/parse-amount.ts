import type { ColumnUnit } from "../../model/column-map.ts";
import { KILOGRAMS_PER_POUND, newtonsFromPounds, newtonsPerMeter, STANDARD_GRAVITY_M_S2 } from "../../units/force.ts";
import { parseDecimal } from "../../units/parse-length.ts";
import { celsiusFromFahrenheit } from "../../units/temperature.ts";

type Scales = Readonly<Record<string, (amount: number) => number>>;

const TENSION: Scales = {
  n: (amount) => amount,
  kn: (amount) => amount * 1000,
  dan: (amount) => amount * 10,
  lb: newtonsFromPounds,
  lbs: newtonsFromPounds,
  lbf: newtonsFromPounds,
  kg: (amount) => amount * STANDARD_GRAVITY_M_S2,
  kgf: (amount) => amount * STANDARD_GRAVITY_M_S2,
};
const WEIGHT: Scales = {
  "n/m": (amount) => amount,
  "kg/m": (amount) => amount * STANDARD_GRAVITY_M_S2,
  "kg/km": (amount) => (amount * STANDARD_GRAVITY_M_S2) / 1000,
  "lb/ft": newtonsPerMeter,
  "lb/kft": (amount) => newtonsPerMeter(amount / 1000),
  "lb/1000ft": (amount) => newtonsPerMeter(amount / 1000),
  "lb/mi": (amount) => (amount * KILOGRAMS_PER_POUND * STANDARD_GRAVITY_M_S2) / 1609.344,
};
const TEMPERATURE: Scales = { c: (amount) => amount, f: celsiusFromFahrenheit };
const MAX_TEXT = 64;

/** Horizontal tension in newtons from `8 kN`, `1800 lb` or a number in `unit`; null when it is none, or not above 0. */
export const parseTensionN = (value: unknown, unit: ColumnUnit): number | null =>
  positive(parseAmount(value, unit, TENSION));

/** Weight of a meter of wire in newtons from `0.2921 lb/ft`, `0.43 kg/m` or a number in `unit`; null when it is none, or not above 0. */
export const parseWeightNPerM = (value: unknown, unit: ColumnUnit): number | null =>
  positive(parseAmount(value, unit, WEIGHT));

/** Degrees Celsius from `60 F`, `15 °C` or a number in `unit`; null when it is none, or colder or hotter than any line is strung. */
export function parseTemperatureC(value: unknown, unit: ColumnUnit): number | null {
  const temperatureC = parseAmount(value, unit, TEMPERATURE);
  return temperatureC !== null && temperatureC >= -60 && temperatureC <= 120 ? temperatureC : null;
}

/** A number with its unit behind it; one of another unit is not guessed at. */
function parseAmount(value: unknown, unit: ColumnUnit, scales: Scales): number | null {
  if (typeof value === "number") return Number.isFinite(value) ? scaled(value, unit.toLowerCase(), scales) : null;
  if (typeof value !== "string" || value.length > MAX_TEXT) return null;
  const text = value.trim().toLowerCase().split("°").join("").split("deg").join("");
  let end = 0;
  while (end < text.length && "0123456789.,+-".includes(text[end]!)) end += 1;
  const amount = parseDecimal(text.slice(0, end));
  const name = text.slice(end).split(/\s/).join("");
  return amount === null ? null : scaled(amount, name === "" ? unit.toLowerCase() : name, scales);
}

const scaled = (amount: number, unit: string, scales: Scales): number | null =>
  Object.hasOwn(scales, unit) ? scales[unit]!(amount) : null;

const positive = (amount: number | null): number | null => (amount !== null && amount > 0 ? amount : null);
